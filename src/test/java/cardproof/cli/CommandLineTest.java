package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.pty.Devices;
import cardproof.pty.PtyPeer;
import cardproof.pty.Ptys;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
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
  @ValueSource(
      strings = {
        "check",
        "run",
        "log",
        "ports",
        "netlist",
        "schema",
        "new",
        "completion",
        "manual"
      })
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
        .contains("floor 97.5 ms: 1.25 x 3 x (18.0 ms + 8.0 ms)", "3 stages: PL - LG[0] - R[0]")
        .contains("183 vectors, 0 watched bits not judged")
        .containsPattern("D2 +W12 +J2\\.1 +D\\[0]");
  }

  @Test
  void checkListsEveryVectorAndTheSameEachTime() {
    Path plan = Path.of("vectors", "sum", "bring-up.yaml");
    Cli cli = Cli.run("check", plan, "--list");
    assertThat(cli.out().lines()).hasSize(274);
    assertThat(cli.out())
        .contains(
            "2  "
                + plan
                + ":19#1 (called at "
                + plan
                + ":33)  A=0x001 B=0x000 CI=0  ->  S=0x001 CO=0  one line of A");
    assertThat(Cli.run("check", plan, "--list").out()).isEqualTo(cli.out());
  }

  @Test
  void aPlanOfMoreThanAHundredMillionVectorsIsForThoseWhoSaySo() throws Exception {
    Path plan = folder.resolve("large.yaml");
    Path card = Path.of("vectors", "sum", "card.yaml").toAbsolutePath();
    Files.writeString(
        plan,
        """
        plan: all there is
        card: %s
        steps:
          - title: every addend
            each: {A B CI: all}
          - repeat: 1000
            steps:
              - title: every one again and again
                each: {A B CI: all}
        """
            .formatted(card));
    for (String command : List.of("check", "run")) {
      Cli cli = Cli.run(command, plan);
      assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
      // by hand: 1001 x 2^25 vectors, 65 ms each, is 69.2 years
      assertThat(cli.err())
          .contains("33,587,986,432 vectors", "65.0 ms or more each take at least 69 years")
          .contains("Give --large if that is meant");
    }
    assertThat(Cli.run("check", plan, "--only", "#none").err()).contains("has this tag");
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
    assertThat(Cli.run("log", plan.getParent()).out()).contains("No runs of real units here.");
    assertThat(
            Cli.run(
                    "log",
                    plan.getParent(),
                    "--simulated",
                    "--rework",
                    "joint redone",
                    "--card",
                    "sum",
                    "--unit",
                    "03")
                .exitCode())
        .isZero();
    assertThat(Cli.run("log", plan.getParent(), "--simulated").out())
        .contains("SIMULATED units", "sum 03", "finished", "wrong", "joint redone");
    assertThat(Cli.run("log", plan.getParent(), "--run", "1").out())
        .contains("run 1 of sum unit 03 SIMULATED", "fault put in: S[3] stuck at ground")
        .contains("note: first try", "S[3] (J4.4) seen 0", "settle times", "274 of 274 vectors")
        .contains(
            "WRONG  vector 5 at " + plan + ":19#4 (called at " + plan + ":33): one line of A");
    Cli missing = Cli.run("log", plan.getParent(), "--run", "9");
    assertThat(missing.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(missing.err()).contains("there is no run 9");
  }

  @Test
  void aReworkOfAUnitThatNeverRanIsRefusedWithTheWayToTheRightOne() {
    Path plan = Cli.demonstration(folder, "sum");
    Cli.run("run", plan, "--unit", "03", "--only", "carry in alone");
    Cli real =
        Cli.run("log", plan.getParent(), "--rework", "redone", "--card", "sum", "--unit", "03");
    assertThat(real.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(real.err())
        .contains("no run of sum unit 03 is in this log", "Add --simulated for the simulated unit");
    Cli typo =
        Cli.run(
            "log",
            plan.getParent(),
            "--simulated",
            "--rework",
            "redone",
            "--card",
            "smu",
            "--unit",
            "03");
    assertThat(typo.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(typo.err()).contains("no run of smu unit 03 SIMULATED is in this log");
  }

  @Test
  void reworkNotesStandBetweenTheRunsTheyFellBetween() {
    Path plan = Cli.demonstration(folder, "sum");
    Cli.run("run", plan, "--only", "carry in alone");
    Cli.run(
        "log",
        plan.getParent(),
        "--simulated",
        "--rework",
        "joint redone",
        "--card",
        "sum",
        "--unit",
        "01");
    Cli.run("run", plan, "--only", "carry in alone");
    assertThat(Cli.run("log", plan.getParent(), "--simulated").out())
        .containsPattern("(?s) 2 .*rework: joint redone.* 1  ");
  }

  @Test
  void aUnitNeedsANameThatFitsOnASticker() {
    Cli cli = Cli.run("run", Path.of("vectors", "sum", "bring-up.yaml"), "--unit", "");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err()).startsWith("--unit '': a unit cannot be called that");
  }

  @Test
  void aNumberThatIsNoneIsSaidInPlainWords() {
    Cli cli = Cli.run("run", "x", "--seed", "abc");
    assertThat(cli.err()).contains("'abc' is not a whole number").doesNotContain("long");
  }

  @Test
  void aCommandThatDoesNotExistIsAnsweredWithThoseThatDo() {
    assertThat(Cli.run("frobnicate").err())
        .contains("'frobnicate' is no command of 'cardproof'; there are check, run, log");
  }

  @Test
  void aReworkWithoutAUnitIsWrongUsage() {
    Cli cli = Cli.run("log", folder, "--rework", "something");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err()).contains("--rework needs --card and --unit");
  }

  @Test
  void talkingToAPortNeedsConsent() throws Exception {
    Ptys.assumeAvailable();
    try (PtyPeer peer = PtyPeer.start(Devices.silent())) {
      Cli cli = Cli.run("ports", "--ask", peer.port());
      assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
      assertThat(cli.err()).contains("somebody's consent", "--yes");
    }
  }
}
