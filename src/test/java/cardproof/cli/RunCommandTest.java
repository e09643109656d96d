package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.pty.Devices;
import cardproof.pty.PtyPeer;
import cardproof.pty.Ptys;
import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class RunCommandTest {
  private static final Path RESOURCES = Path.of("src", "test", "resources", "cli");

  @TempDir private Path folder;

  private static JsonObject json(Cli cli) {
    return JsonParser.parseString(cli.out()).getAsJsonObject();
  }

  private static JsonObject firstFailure(Cli cli) {
    return json(cli).getAsJsonArray("failures").get(0).getAsJsonObject();
  }

  @ParameterizedTest
  @CsvSource({"sum, 65.0", "hold, 97.5", "pick, 32.5", "store, 130.0"})
  void theDemonstrationIsProvedAndSaysItIsSimulated(String card, String quietMs) {
    Path plan = Cli.demonstration(folder, card);
    Cli cli = Cli.run("run", plan);
    assertThat(cli.exitCode()).isZero();
    assertThat(cli.err()).doesNotContain("warning");
    assertThat(cli.out())
        .contains("SIMULATED", "settle times", "quiet window " + quietMs + " ms", "card's wiring")
        .endsWith("PROVED: " + card + " unit 01 passed every vector of this plan (SIMULATED)\n");
    assertThat(plan.resolveSibling("bench-log.sqlite")).exists();
  }

  @ParameterizedTest
  @ValueSource(strings = {"sum", "hold"})
  void aDemonstrationPlanIsWorthRunning(String card) {
    JsonObject run = json(Cli.run("run", Cli.demonstration(folder, card), "--json"));
    assertThat(run.get("vectors").getAsLong()).isGreaterThanOrEqualTo(100);
    assertThat(run.get("notJudgedBits").getAsLong()).isZero();
  }

  @Test
  void theObjectHasEveryKeyThatWasPromised() {
    Path plan = Cli.demonstration(folder, "sum");
    Cli cli =
        Cli.run(
            "run", plan, "--json", "--seed", 5, "--unit", "07", "--fault", "S[3] stuck at ground");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.FAILED);
    JsonObject run = json(cli);
    assertThat(run.keySet())
        .contains(
            "plan",
            "card",
            "unit",
            "simulated",
            "seed",
            "vectors",
            "verdicts",
            "notJudgedBits",
            "wallMs",
            "cardMs",
            "settle",
            "failureCount",
            "failures");
    assertThat(run.getAsJsonObject("verdicts").keySet())
        .containsExactly(
            "pass",
            "wrong",
            "late",
            "disturbed",
            "unsettled",
            "supply",
            "chatter",
            "measured",
            "untested");
    assertThat(run.getAsJsonArray("settle").get(0).getAsJsonObject().keySet())
        .contains("line", "label", "direction", "n", "minUs", "medianUs", "maxUs", "censored");
    assertThat(firstFailure(cli).keySet())
        .contains("vector", "at", "title", "verdict", "bus", "wanted", "seen", "bits");
    assertThat(run.get("unit").getAsString()).isEqualTo("07");
    assertThat(run.get("seed").getAsLong()).isEqualTo(5);
    assertThat(run.get("simulated").getAsBoolean()).isTrue();
    assertThat(run.getAsJsonArray("failures").size())
        .isEqualTo((int) Math.min(100, run.get("failureCount").getAsLong()));
  }

  @Test
  void aStuckSumLineIsNamedWithItsVectorBusAndPin() {
    Path plan = Cli.demonstration(folder, "sum");
    Cli cli = Cli.run("run", plan, "--fault", "S[3] stuck at ground", "--json");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.FAILED);
    JsonObject failure = firstFailure(cli);
    assertThat(failure.get("at").getAsString())
        .isEqualTo(plan + ":19#4 (called at " + plan + ":33)");
    assertThat(failure.get("verdict").getAsString()).isEqualTo("wrong");
    assertThat(failure.get("bus").getAsString()).isEqualTo("S");
    assertThat(failure.get("wanted").getAsString()).isEqualTo("0x008");
    assertThat(failure.get("seen").getAsString()).isEqualTo("0x000");
    JsonArray bits = failure.getAsJsonArray("bits");
    assertThat(bits).hasSize(1);
    assertThat(bits.get(0).getAsJsonObject().get("pin").getAsString()).isEqualTo("J4.4");
  }

  @Test
  void exchangedSumLinesShowAsEachOther() {
    Path plan = Cli.demonstration(folder, "sum");
    Cli cli = Cli.run("run", plan, "--fault", "A[4] exchanged with A[5]");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.FAILED);
    assertThat(cli.out())
        .contains("wanted 0x010, seen 0x020", "S[4] (J4.5): wanted 1, seen 0", "NOT PROVED");
  }

  @Test
  void aStuckLoadLineOfARegisterIsFound() {
    Path plan = Cli.demonstration(folder, "hold");
    Cli cli = Cli.run("run", plan, "--fault", "LD stuck at ground");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.FAILED);
    assertThat(cli.out())
        .contains("one line at a time: load walking-ones", "(pulse on)", "wanted 0x001, seen 0x000")
        .contains("watched bits were not judged");
  }

  @Test
  void exchangedBusLinesOfARegisterAreFound() {
    Path plan = Cli.demonstration(folder, "hold");
    Cli cli = Cli.run("run", plan, "--fault", "D[2] exchanged with D[3]");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.FAILED);
    assertThat(cli.out()).contains("wanted 0x004, seen 0x008");
  }

  @Test
  void aChainThatRunsAwayTripsTheFixtureAndIsSaidSo() {
    Path plan =
        Cli.copy(folder, RESOURCES.resolve("loop-card.yaml"), RESOURCES.resolve("loop.yaml"));
    Cli cli = Cli.run("run", plan, "--fault", "GO stuck at supply");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.TRIPPED);
    assertThat(cli.out()).contains("CHATTER", "NOT PROVED", "untested");
    assertThat(cli.err())
        .contains("dropped every drive", "Look for an output that feeds its own input");
  }

  @Test
  void onlyTheStepsAskedForProveNoCard() {
    Path plan = Cli.demonstration(folder, "sum");
    Cli cli = Cli.run("run", plan, "--only", "tide", "--only", "carry in alone");
    assertThat(cli.exitCode()).isZero();
    assertThat(cli.out()).contains("4 vectors: 4 pass").contains("the chosen steps only");
  }

  @Test
  void aCardOfWhichALineWasNeverJudgedIsNotProved() throws Exception {
    Path plan = Cli.demonstration(folder, "sum");
    Path card = plan.resolveSibling("card.yaml");
    Files.writeString(card, Files.readString(card).replace("  CO: (A + B + CI) >> 12\n", ""));
    Files.writeString(
        plan,
        """
        plan: half a card
        card: card.yaml
        steps:
          - each: {A B CI: {random: 50}}
        """);
    Cli cli = Cli.run("run", plan);
    assertThat(cli.exitCode()).isZero();
    assertThat(cli.out())
        .endsWith(
            "PASSED: sum unit 01, but never was judged CO (J4.13), which proves no card"
                + " (SIMULATED)\n");
    assertThat(json(Cli.run("run", plan, "--json")).get("proved").getAsBoolean()).isFalse();
  }

  @Test
  void stopOnFailStopsThere() {
    Path plan = Cli.demonstration(folder, "sum");
    Cli cli = Cli.run("run", plan, "--stop-on-fail", "--fault", "S[0] stuck at supply", "--json");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.FAILED);
    JsonObject run = json(cli);
    assertThat(run.get("failureCount").getAsLong()).isEqualTo(1);
    assertThat(run.getAsJsonObject("verdicts").get("untested").getAsLong()).isEqualTo(273);
  }

  @Test
  void anotherUnitHasOtherTimesAndTheSameUnitTheSame() {
    Path plan = Cli.demonstration(folder, "sum");
    JsonObject first = json(Cli.run("run", plan, "--json"));
    JsonObject again = json(Cli.run("run", plan, "--json"));
    JsonObject other = json(Cli.run("run", plan, "--json", "--unit", "02"));
    assertThat(again.get("settle")).isEqualTo(first.get("settle"));
    assertThat(other.get("settle")).isNotEqualTo(first.get("settle"));
  }

  @Test
  void aQuietWindowBelowTheFloorIsRefusedWithTheFloor() throws Exception {
    Path plan = Cli.demonstration(folder, "sum");
    String text = Files.readString(plan);
    Files.writeString(plan, text.replace("card: card.yaml", "card: card.yaml\nquiet: 10 ms"));
    Cli cli = Cli.run("run", plan);
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.out()).isEmpty();
    assertThat(cli.err()).startsWith(plan + ":3:8: ").contains("10 ms", "65 ms");
    assertThat(plan.resolveSibling("bench-log.sqlite")).doesNotExist();
  }

  @Test
  void aBadLineToTheSimulatedBenchIsSaidAndKept() {
    Path plan = Cli.demonstration(folder, "sum");
    String noise = "link to fixture: lose 2 %, repeat 2 %, delay 16 ms";
    Cli cli = Cli.run("run", plan, "--fault", noise, "--fault", "S[0] stuck at ground");
    assertThat(cli.out())
        .contains("fault put in: S[0] stuck at ground", "fault put in: " + noise)
        .contains("did not pass");
    assertThat(Cli.run("log", plan.getParent(), "--run", 1).out())
        .contains("fault put in: " + noise);
  }

  @Test
  void aMistypedFaultOfTheLineNamesTheNearestWord() {
    Path plan = Cli.demonstration(folder, "sum");
    Cli cli =
        Cli.run("run", plan, "--fault", "link: loose 1 %", "--fault", "S[99] stuck at ground");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err())
        .contains("fault 'link: loose 1 %': 'loose' after ':'", "Did you mean 'lose'?")
        .contains("has no 'S[99]'", "Did you mean 'S[9]'?");
  }

  @Test
  void faultsAreForSimulatedCardsOnly() {
    Path plan = Cli.demonstration(folder, "sum");
    Cli cli = Cli.run("run", plan, "--port", "/dev/none", "--fault", "S[0] stuck at supply");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err())
        .isEqualTo(
            "--fault: faults can only be put into a simulated card; wanted the simulated bench."
                + " Leave --port out, or leave --fault out.\n");
  }

  @Test
  void aRealPortIsNotDrivenWithoutSomebodysWord() throws Exception {
    Path plan = Cli.demonstration(folder, "sum");
    Ptys.assumeAvailable();
    try (PtyPeer peer = PtyPeer.start(Devices.silent())) {
      Cli cli = Cli.run("run", plan, "--port", peer.port());
      assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
      assertThat(cli.err()).contains("no terminal to ask at", "--powered");
    }
  }

  @Test
  void aPortThatIsNotThereIsSaidBeforeAnythingIsAsked() {
    Path plan = Cli.demonstration(folder, "sum");
    Cli cli = Cli.run("run", plan, "--port", "/dev/none");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.LINK);
    assertThat(cli.err()).startsWith("/dev/none: there is no such port");
  }

  @Test
  void aSerialProfileNeedsAPort() {
    Path plan = Cli.demonstration(folder, "sum");
    Path profile = Path.of("fixtures", "plain-32.yaml");
    Cli cli = Cli.run("run", plan, "--fixture", profile);
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err()).contains("is on a serial port, and no port is named", "cardproof ports");
  }
}
