package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Runs of a simulated sum card before and after something was done to it. */
final class CompareCommandTest {
  private static final String SLOW = "BIT[3].C slow by 20 ms";

  @TempDir private Path folder;

  private static Path log(Path plan) {
    return plan.resolveSibling(BenchLogs.NAME);
  }

  private static void runs(Path plan, int firstSession, Object... more) {
    for (int session = firstSession; session < firstSession + 3; session++) {
      List<Object> words =
          new ArrayList<>(List.of("run", plan, "--unit", "03", "--session", session));
      words.addAll(List.of(more));
      Cli.run(words.toArray());
    }
  }

  private static void rework(Path plan, String note) {
    Cli cli =
        Cli.run("log", log(plan), "--simulated", "--card", "sum", "--unit", "03", "--rework", note);
    assertThat(cli.exitCode()).as(cli.err()).isZero();
  }

  private static Cli compare(Path plan, Object... words) {
    List<Object> all = new ArrayList<>(List.of("compare", "--log", log(plan)));
    all.addAll(List.of(words));
    return Cli.run(all.toArray());
  }

  private static Map<String, JsonObject> lines(Cli cli) {
    Map<String, JsonObject> lines = new TreeMap<>();
    JsonObject json = JsonParser.parseString(cli.out()).getAsJsonObject();
    for (JsonElement element : json.getAsJsonArray("lines")) {
      JsonObject line = element.getAsJsonObject();
      lines.put(line.get("line").getAsString() + " " + line.get("direction").getAsString(), line);
    }
    return lines;
  }

  /**
   * The true shift of a line is what the fault alone makes of it: that of runs with the same draws,
   * with it and without it.
   */
  @Test
  void aSlowRelayIsSeenOnItsLineAndTheTrueShiftLiesInTheInterval() {
    Path truth = Cli.demonstration(folder.resolve("truth"), "sum");
    runs(truth, 11);
    rework(truth, "one relay exchanged");
    runs(truth, 11, "--fault", SLOW);
    Map<String, JsonObject> isTrue = lines(compare(truth, "--rework", "--simulated", "--json"));

    Path plan = Cli.demonstration(folder.resolve("seen"), "sum");
    runs(plan, 1);
    rework(plan, "one relay exchanged");
    runs(plan, 11, "--fault", SLOW);
    Cli cli = compare(plan, "--rework", "--simulated", "--json");
    assertThat(cli.exitCode()).as(cli.err()).isEqualTo(ExitCode.FAILED);
    Map<String, JsonObject> seen = lines(cli);
    List<String> slower = new ArrayList<>();
    seen.forEach(
        (line, shift) -> {
          if (!shift.get("change").getAsString().equals("none seen")) {
            slower.add(line + " " + shift.get("change").getAsString());
            assertThat(isTrue.get(line).get("shiftUs").getAsDouble())
                .as(line)
                .isBetween(shift.get("lowUs").getAsDouble(), shift.get("highUs").getAsDouble());
            assertThat(shift.get("tenthUs").getAsDouble()).as(line).isBetween(14e3, 26e3);
          }
        });
    assertThat(slower).containsExactly("S[3] falling slower", "S[3] rising slower");
    assertThat(compare(plan, "--rework", "--simulated").out())
        .contains("compare sum unit 03 SIMULATED", "rework  ", ": one relay exchanged")
        .contains("274 vectors in common, matched by number: no verdict changed.")
        .containsPattern(
            "S\\[3\\] rising is [0-9.]+ ms slower \\([0-9.]+ to [0-9.]+\\), [0-9.]+ in a")
        .containsPattern("no change of [0-9.]+ ms or more seen on the other lines");
  }

  @Test
  void whereNothingWasDoneNothingIsTold() {
    Path plan = Cli.demonstration(folder, "sum");
    runs(plan, 1);
    rework(plan, "looked at, nothing done");
    runs(plan, 4);
    Cli cli = compare(plan, "--rework", "--simulated");
    assertThat(cli.exitCode()).as(cli.out() + cli.err()).isZero();
    assertThat(cli.out())
        .contains("no verdict changed")
        .containsPattern("\\R  no change of [0-9.]+ ms or more seen\\R")
        .doesNotContain("slower", "faster", "the same");
  }

  @Test
  void verdictsThatChangedComeFirstWithTheirPlace() {
    Path plan = Cli.demonstration(folder, "sum");
    runs(plan, 1, "--fault", "S[3] stuck at ground");
    rework(plan, "joint of S3 redone");
    runs(plan, 4);
    Cli mended = compare(plan, "--rework", "--simulated");
    assertThat(mended.exitCode()).as(mended.err()).isZero();
    assertThat(mended.out())
        .containsPattern(
            "0 fail now that passed before, 109 pass now that failed \\(by chance: 3.1e-33\\)")
        .containsPattern(
            "passes now  vector [0-9]+ at .*bring-up.yaml:[0-9]+#[0-9]+.*: failed 3 of 3"
                + " before, 0 of 3 now");
    Cli broken = compare(plan, 4, 1);
    assertThat(broken.exitCode()).isEqualTo(ExitCode.FAILED);
    assertThat(broken.out()).contains("109 fail now that passed before", "FAILS NOW   vector");
    assertThat(compare(plan, "--rework", "--simulated", "--csv").out())
        .startsWith(
            "line,label,pin,going,pairs,shift_us,low_us,high_us,tenth_us,p_holm,margin_us,");
  }

  /** One run on either side tells nothing of how much runs differ by themselves. */
  @Test
  void fromOneRunOnEitherSideNothingIsClaimed() {
    Path plan = Cli.demonstration(folder, "sum");
    Cli.run("run", plan, "--unit", "03", "--session", 1);
    rework(plan, "one relay exchanged");
    Cli.run("run", plan, "--unit", "03", "--session", 2, "--fault", SLOW);
    Cli cli = compare(plan, 1, 2);
    assertThat(cli.exitCode()).isZero();
    assertThat(cli.out()).contains("nothing is claimed: how much runs").doesNotContain("slower");
  }

  @Test
  void whatCannotBeComparedIsRefused() {
    Path plan = Cli.demonstration(folder, "sum");
    Cli.run("run", plan, "--unit", "03");
    Path pick = Cli.demonstration(folder.resolve("other"), "pick");
    Cli.run("run", pick, "--log", log(plan));
    assertThat(compare(plan, 1, 2).err())
        .contains(
            "run 1 is of sum unit 03 SIMULATED, and run 2 of pick unit 01 SIMULATED; wanted two");
    assertThat(compare(plan, 1, 7).err()).contains("there is no run 7");
    assertThat(compare(plan, 1, 1).err()).contains("run 1 would be compared with itself");
    assertThat(compare(plan, 1).err()).contains("wanted the numbers of two runs, or --rework");
    assertThat(compare(plan, "--rework", "--simulated").err())
        .contains("there are runs of 2 units", "Name it with --card and --unit");
    assertThat(compare(plan, "--rework", "--simulated", "--card", "sum").err())
        .contains("no rework of sum unit 03 SIMULATED is noted");
    rework(plan, "nothing yet");
    assertThat(compare(plan, "--rework", "--simulated", "--card", "sum").err())
        .contains("there is no run of sum unit 03 SIMULATED after the rework of ")
        .contains("Run the plan now");
  }

  /**
   * Vectors of chosen steps are numbered by themselves; the place in the plan tells which is which.
   */
  @Test
  void chosenStepsAreFoundAgainInTheWholePlan() {
    Path plan = Cli.demonstration(folder, "sum");
    String fault = "S[3] stuck at ground";
    Cli.run("run", plan, "--unit", "03", "--fault", fault, "--only", "one line of B");
    rework(plan, "looked at, nothing done");
    Cli.run("run", plan, "--unit", "03", "--fault", fault);
    Cli same = compare(plan, 1, 2);
    assertThat(same.out())
        .contains("12 vectors in common, matched by their place in the plan")
        .contains(": no verdict changed.");
    assertThat(same.exitCode()).isZero();

    Cli.run("run", plan, "--unit", "03");
    Cli mended = compare(plan, 1, 3);
    assertThat(mended.out())
        .contains("0 fail now that passed before, 1 passes now that failed")
        .containsPattern("passes now  vector 17 at .*bring-up.yaml:19#4 \\(called at ");
    Cli back = compare(plan, 3, 1);
    assertThat(back.out()).contains("262 vectors judged before and not in any run after");
    assertThat(JsonParser.parseString(compare(plan, 3, 1, "--json").out()).getAsJsonObject())
        .satisfies(
            json -> {
              assertThat(json.get("matchedBy").getAsString()).isEqualTo("place");
              assertThat(json.get("vectorsNotJudgedNow").getAsInt()).isEqualTo(262);
            });
  }

  /** A joint that opens in one run of three is no sound card. */
  @Test
  void whatFailsNowAndThenIsToldAndIsWorse() {
    Path plan = Cli.demonstration(folder, "sum");
    runs(plan, 1);
    rework(plan, "socket changed");
    runs(plan, 4);
    assertThat(compare(plan, "--rework", "--simulated").exitCode()).isZero();
    rework(plan, "socket changed again");
    Cli.run("run", plan, "--unit", "03", "--session", 7, "--fault", "CO stuck at ground");
    Cli.run("run", plan, "--unit", "03", "--session", 8);
    Cli.run("run", plan, "--unit", "03", "--session", 9);
    Cli cli = compare(plan, "--rework", "--simulated");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.FAILED);
    assertThat(cli.out())
        .doesNotContain("no verdict changed")
        .containsPattern("[0-9]+ fail now and then that never failed before")
        .containsPattern("FAILS SOMETIMES  vector .*: failed 0 of 3 before, 1 of 3 now");
  }

  /** On the simulated bench another seed is another copy of the card, on a fixture of its own. */
  @Test
  void timesOfTwoFixturesAreNotHeldAgainstEachOther() {
    Path plan = Cli.demonstration(folder, "sum");
    runs(plan, 1, "--seed", 1);
    rework(plan, "fixture changed");
    runs(plan, 4, "--seed", 2);
    Cli cli = compare(plan, "--rework", "--simulated");
    assertThat(cli.exitCode()).isZero();
    assertThat(cli.out())
        .contains("no verdict changed")
        .containsPattern("nothing is claimed: the runs were made on 2 fixtures.*every 50 us")
        .doesNotContain("slower", "faster", "no change of");
  }

  @Test
  void whereEveryRunAfterIsVoidThatIsSaid() {
    Path plan = Cli.demonstration(folder, "sum");
    Cli.run("run", plan, "--unit", "03", "--session", 1);
    rework(plan, "one relay exchanged");
    Cli slow =
        Cli.run("run", plan, "--unit", "03", "--session", 2, "--fault", "BIT[3].C slow by 90 ms");
    assertThat(slow.out()).contains("VOID");
    Cli cli = compare(plan, 1, 2);
    assertThat(cli.out())
        .contains("VOID and left out of the times: run 2")
        .contains("Every run on one side is void: nothing is said of times.")
        .doesNotContain("slower");
  }
}
