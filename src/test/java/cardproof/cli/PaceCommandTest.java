package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.log.BenchLog;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The clock of a simulated card, measured and proved. */
final class PaceCommandTest {
  @TempDir private Path folder;

  private static Cli pace(Path plan, Object... words) {
    List<Object> all = new ArrayList<>(List.of("pace", plan, "--unit", "03"));
    all.addAll(List.of(words));
    return Cli.run(all.toArray());
  }

  private static JsonObject json(Cli cli) {
    assertThat(cli.out()).as(cli.err()).isNotEmpty();
    return JsonParser.parseString(cli.out()).getAsJsonObject();
  }

  @Test
  void theClockHoldsAtItsDwellAndAFifthFasterDoesNot() {
    Path plan = Cli.demonstration(folder, "sum");
    Cli measured = pace(plan, "--measure", "--json");
    assertThat(measured.exitCode()).as(measured.err()).isZero();
    JsonObject found = json(measured);
    assertThat(found.get("boundedRuns").getAsInt()).isEqualTo(5);
    assertThat(found.get("powerCycles").getAsInt()).isEqualTo(5);
    assertThat(found.get("shareOfFutureRuns").getAsDouble()).isBetween(0.549, 0.55);
    JsonObject slowest = found.getAsJsonArray("transitions").get(0).getAsJsonObject();
    assertThat(slowest.get("line").getAsString())
        .as("the carry out of twelve bits")
        .isEqualTo("CO[0]");
    assertThat(slowest.get("n").getAsInt()).isEqualTo(295);
    List<String> path = new ArrayList<>();
    found.getAsJsonArray("path").forEach(relay -> path.add(relay.getAsString()));
    List<String> chain = IntStream.range(0, 12).mapToObj(bit -> "BIT[" + bit + "].C").toList();
    assertThat(path)
        .as("by the wiring a carry goes through every bit")
        .endsWith(chain.toArray(String[]::new));
    double periodUs = found.get("periodUs").getAsDouble();
    assertThat(periodUs).isEqualTo(1.1 * found.get("longestUs").getAsDouble());

    Cli holds = pace(plan, "--prove", Math.round(periodUs) + " us", "--transitions", 2, "--json");
    assertThat(holds.exitCode()).as(holds.out() + holds.err()).isZero();
    assertThat(json(holds).get("sampled").getAsInt()).isEqualTo(598);
    assertThat(json(holds).get("failed").getAsInt()).isZero();
    assertThat(json(holds).get("mostFail").getAsDouble()).isBetween(0.0099, 0.0101);

    Cli faster =
        pace(
            plan, "--prove", Math.round(periodUs / 1.2) + " us", "--transitions", 1, "--times", 30);
    assertThat(faster.exitCode()).isEqualTo(ExitCode.FAILED);
    assertThat(faster.out()).startsWith("NOT at ").contains("30 samples", "The longest took 2");
  }

  @Test
  void thePageSaysWhatItRestsOnAndWhatItDoesNotCover() {
    Path plan = Cli.demonstration(folder, "pick");
    Cli cli = pace(plan, "--measure", "--cycles", 2, "--transitions", 3, "--receiver", "12.5ms");
    assertThat(cli.exitCode()).as(cli.err()).isZero();
    assertThat(cli.out())
        .startsWith("pace of pick unit 03 SIMULATED")
        .contains(
            "the slowest 3 of ", " Hz: one step every ", "+ 12.5 ms for the card that receives")
        .contains("a guard of 10 %, which is a guess")
        .contains("In 2 runs the longest of at least 59 repeats is above 95 %")
        .contains("longest of 22 % of future ones")
        .containsPattern(
            "2 power cycles known of, with the power on for up to [0-9.]+ min; the supply")
        .contains("Not covered: transitions that the plan does not make");
    assertThat(cli.err()).contains("screening 3 of 3: run 3", "power cycle 2 of 2: run 5");
    assertThat(pace(plan, "--transitions", 3).out()).contains(" Hz: one step every ");
  }

  /**
   * Each transition is reached from where what the card keeps is known, and none fails on the way.
   */
  @Test
  void aCardThatHoldsStateIsBroughtToIt() throws IOException {
    Path plan = Cli.demonstration(folder, "hold");
    Cli cli = pace(plan, "--measure", "--cycles", 1, "--transitions", 2, "--json");
    assertThat(cli.exitCode()).as(cli.err()).isZero();
    for (JsonElement each : json(cli).getAsJsonArray("transitions")) {
      assertThat(each.getAsJsonObject().get("n").getAsInt()).isGreaterThanOrEqualTo(59);
    }
    assertThat(Files.readString(plan.resolveSibling("pace-03.yaml")))
        .startsWith("# Made by 'cardproof pace'")
        .contains("title: 'before 1 Q[", "title: 'transition 2 Q[", "title: 'on the way'");
  }

  @Test
  void fromTooFewRepeatsNothingIsClaimed() {
    Path plan = Cli.demonstration(folder, "sum");
    Cli.run("run", plan, "--unit", "03");
    Cli cli = pace(plan);
    assertThat(cli.exitCode()).isZero();
    assertThat(cli.out())
        .contains("no clock yet: no run has 59 repeats of each of these transitions")
        .contains("Measure them: cardproof pace " + plan + " --measure --unit 03")
        .doesNotContain("Hz");
    assertThat(json(pace(plan, "--json")).get("periodUs").isJsonNull()).isTrue();
  }

  @Test
  void whatCannotBeDoneIsSaid() throws IOException {
    Path plan = Cli.demonstration(folder, "sum");
    assertThat(pace(plan).err()).contains("there is no such bench log");
    Cli.run("run", plan, "--unit", "05");
    assertThat(pace(plan).err())
        .contains(
            "there is no run of sum unit 03 SIMULATED; wanted runs to take settle times from");
    assertThat(pace(plan, "--prove", "soon").err())
        .contains("'soon' is no time; wanted a number and");
    assertThat(pace(plan, "--share", "20").err()).contains("--share needs a percentage");
    Files.writeString(plan.resolveSibling("pace-05.yaml"), "plan: my own\n");
    Cli taken = Cli.run("pace", plan, "--measure", "--unit", "05");
    assertThat(taken.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(taken.err()).contains("pace-05.yaml: this plan was not made by 'cardproof pace'");
  }

  @Test
  void everyRepeatIsInTheLog() {
    Path plan = Cli.demonstration(folder, "pick");
    pace(plan, "--measure", "--cycles", 1, "--transitions", 1);
    try (BenchLog log = BenchLog.openForReading(plan.resolveSibling(BenchLogs.NAME))) {
      long[] vectors = new long[1];
      log.forEachVector(4, vector -> vectors[0]++);
      assertThat(vectors[0]).isEqualTo(118);
      assertThat(log.run(4).orElseThrow().steps()).hasSize(2);
    }
  }
}
