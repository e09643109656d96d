package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CommandLineTest {
  @TempDir private Path folder;

  @Test
  void withoutACommandTheHelpIsShownAndItIsWrongUsage() {
    Cli cli = Cli.run();
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err()).contains("check", "run", "log", "ports", "Exit codes:");
  }

  @ParameterizedTest
  @ValueSource(strings = {"check", "run", "log", "ports", "schema", "new", "completion", "manual"})
  void everyCommandHasHelpWithAnExample(String command) {
    Cli cli = Cli.run(command, "--help");
    assertThat(cli.exitCode()).isZero();
    assertThat(cli.out()).contains("Example:", "cardproof " + command);
  }

  @Test
  void aMistypedCommandOrOptionGetsTheNearestOne() {
    assertThat(Cli.run("rnu", "x").err()).contains("Did you mean 'run'?");
    assertThat(Cli.run("run", "x", "--unti", "3").err()).contains("Did you mean '--unit'?");
  }

  @Test
  void checkShowsTheHookUpAndTheFloor() {
    Cli cli = Cli.run("check", Path.of("vectors", "hold", "bring-up.yaml"));
    assertThat(cli.exitCode()).isZero();
    assertThat(cli.out())
        .contains("14 lines driven, 24 watched, holds state")
        .contains("floor 65.0 ms: 1.25 x 2 x (18.0 ms + 8.0 ms)")
        .contains("185 vectors, 0 watched bits not judged")
        .containsPattern("D2 +W12 +J2\\.1 +D\\[0]");
  }

  @Test
  void checkListsEveryVectorAndTheSameEachTime() {
    Path plan = Path.of("vectors", "sum", "bring-up.yaml");
    Cli cli = Cli.run("check", plan, "--list");
    assertThat(cli.out().lines()).hasSize(266);
    assertThat(cli.out())
        .contains("2  " + plan + ":10#1  A=0x001 B=0x000 CI=0  ->  S=0x001 CO=0  one line of A");
    assertThat(Cli.run("check", plan, "--list").out()).isEqualTo(cli.out());
  }

  @Test
  void aFixtureThatIsTooNarrowIsRefusedForDrivesAndWatchesAlike() throws Exception {
    Path narrow = folder.resolve("narrow.yaml");
    Files.writeString(
        narrow,
        """
        fixture: narrow
        kind: simulated
        drives: {count: 8}
        watches: {count: 8}
        """);
    Cli cli = Cli.run("check", Path.of("vectors", "sum", "bring-up.yaml"), "--fixture", narrow);
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err())
        .contains(
            "has 8 drive channels; wanted 25", "has 8 watch channels; wanted 13", "2 problems");
  }

  @Test
  void theLogListsShowsAndTakesReworkNotes() {
    Path plan = Cli.demonstration(folder, "sum");
    Cli.run("run", plan, "--unit", "03", "--fault", "S[3] stuck at ground", "--note", "first try");
    assertThat(Cli.run("log", folder).out()).contains("No runs of real units here.");
    assertThat(
            Cli.run(
                    "log",
                    folder,
                    "--simulated",
                    "--rework",
                    "joint redone",
                    "--card",
                    "sum",
                    "--unit",
                    "03")
                .exitCode())
        .isZero();
    assertThat(Cli.run("log", folder, "--simulated").out())
        .contains("SIMULATED units", "sum 03", "finished", "wrong", "joint redone");
    assertThat(Cli.run("log", folder, "--run", "1").out())
        .contains("run 1 of sum unit 03 SIMULATED", "fault put in: S[3] stuck at ground")
        .contains("note: first try", "S[3] (J4.4) seen 0", "settle times", "266 of 266 vectors");
    Cli missing = Cli.run("log", folder, "--run", "9");
    assertThat(missing.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(missing.err()).contains("there is no run 9");
  }

  @Test
  void aReworkWithoutAUnitIsWrongUsage() {
    Cli cli = Cli.run("log", folder, "--rework", "something");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err()).contains("--rework needs --card and --unit");
  }

  @Test
  void talkingToAPortNeedsConsent() {
    Cli cli = Cli.run("ports", "--ask", "/dev/none");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err()).contains("somebody's consent", "--yes");
  }
}
