package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.timing.intermittent.FailureHistory;
import cardproof.timing.intermittent.VectorFailures;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A plan run again and again, and what may be said of it. */
final class IntermittentTest {
  @TempDir private Path folder;

  private static FailureHistory history(
      int judged, int failed, int sessions, int failedSessions, double bunched) {
    return new FailureHistory(4, judged, failed, sessions, failedSessions, bunched, List.of());
  }

  @Test
  void aSoundCardIsBoundedAndItsRunsAreKept() {
    Path plan = Cli.demonstration(folder, "pick");
    Cli cli = Cli.run("run", plan, "--repeat", 3);
    assertThat(cli.exitCode()).as(cli.err()).isZero();
    assertThat(cli.out())
        .contains("SIMULATED", "3 times", "  2 of 3  run 2  passed, 97 vectors")
        .contains(
            "None of 291 vectors in 3 runs failed: at most 1.0 % fail, at 95 % confidence;"
                + " in none of 3 power cycles: at most 63 % of them.");
    Cli log =
        Cli.run(
            "log",
            plan.resolveSibling(BenchLogs.NAME),
            "--simulated",
            "--card",
            "pick",
            "--unit",
            "01");
    assertThat(log.out()).contains("over the runs of " + plan, "None of 291 vectors in 3 runs");
  }

  @Test
  void aStandingFaultIsNotCalledIntermittent() {
    Path plan = Cli.demonstration(folder, "pick");
    Cli cli = Cli.run("run", plan, "--repeat", 2, "--fault", "Y[3] stuck at ground");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.FAILED);
    assertThat(cli.out()).contains("fault put in: Y[3]", "failed every time: that fault stands");
    assertThat(cli.out()).doesNotContain("bunches");
  }

  @Test
  void jsonNamesTheRuns() {
    Path plan = Cli.demonstration(folder, "pick");
    Cli cli = Cli.run("run", plan, "--repeat", 2, "--json");
    JsonObject json = JsonParser.parseString(cli.out()).getAsJsonObject();
    assertThat(json.getAsJsonArray("runs")).hasSize(2);
    assertThat(json.get("judged").getAsInt()).isEqualTo(194);
    assertThat(json.get("failed").getAsInt()).isZero();
  }

  @Test
  void whatIsForOneRunAloneIsRefused() {
    Path plan = Cli.demonstration(folder, "pick");
    assertThat(Cli.run("run", plan, "--repeat", 1).err()).contains("a number from 2 on");
    assertThat(Cli.run("run", plan, "--repeat", 2, "--vcd", folder.resolve("x.vcd")).err())
        .contains("--repeat makes several runs, and --vcd is for one");
  }

  @Test
  void repairedIsSaidWhenAsManyPassedAsTheOldRateAsksFor() {
    FailureHistory before = history(300, 3, 1, 1, 1);
    assertThat(IntermittentWords.repaired(before, history(298, 0, 1, 0, 1)))
        .isEqualTo(
            "Not to be called repaired yet: 298 vectors passed since; at the rate before (3 of 300"
                + " vectors) 299 are needed.");
    assertThat(IntermittentWords.repaired(before, history(299, 0, 1, 0, 1)))
        .startsWith("Repaired, at 95 % confidence: 299 vectors passed since");
    assertThat(IntermittentWords.repaired(before, history(299, 1, 1, 1, 1)))
        .isEqualTo("Not repaired: 1 vector of 299 failed since.");
  }

  /** Where failures come in bunches, clean vectors of one session prove little. */
  @Test
  void bunchedFailuresAreCountedByPowerCycles() {
    FailureHistory before = history(3000, 30, 10, 2, 0.001);
    assertThat(IntermittentWords.repaired(before, history(9000, 0, 13, 0, 1)))
        .isEqualTo(
            "Not to be called repaired yet: 13 power cycles passed since; at the rate before (2 of"
                + " 10 power cycles) 14 are needed.");
    assertThat(IntermittentWords.repaired(before, history(900, 0, 14, 0, 1)))
        .startsWith("Repaired, at 95 % confidence: 14 power cycles passed since");
  }

  /** A joint that opened now and then and is open for good now passes nothing. */
  @Test
  void whatFailsEveryTimeNowIsNotRepaired() {
    FailureHistory dead =
        new FailureHistory(5, 0, 0, 5, 0, 1, List.of(new VectorFailures(7, 9, 5, 5)));
    assertThat(IntermittentWords.repaired(history(300, 3, 1, 1, 1), dead))
        .isEqualTo("Not repaired: what failed now and then before fails every time now.");
  }

  /** Runs that end at a failure because that was asked for go on with the next. */
  @Test
  void stopOnFailEndsARunAndNotTheRepeats() {
    Path plan = Cli.demonstration(folder, "pick");
    Cli cli =
        Cli.run("run", plan, "--repeat", 3, "--stop-on-fail", "--fault", "Y[3] stuck at ground");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.FAILED);
    assertThat(cli.out()).contains("  3 of 3  run 3  1 did not pass");
  }
}
