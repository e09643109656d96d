package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.fault.FaultNames;
import cardproof.files.FixtureFile;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.selftest.SimulatedPlug;
import cardproof.link.Message;
import cardproof.link.Step;
import cardproof.pty.BoardEvents;
import cardproof.pty.Device;
import cardproof.pty.Devices;
import cardproof.pty.PacedBoard;
import cardproof.pty.PtyPeer;
import cardproof.pty.Ptys;
import cardproof.sim.SimSettings;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

class SelftestCommandTest {
  private static final String PROFILE =
      """
      fixture: plain 6+6
      kind: serial
      drives: {count: 6, kind: source, voltage: {least: 8 V, most: 30 V}}
      watches: {count: 6, load: 10 mA}
      """;

  @TempDir private Path folder;

  private Path profile(String text) throws IOException {
    return Files.writeString(folder.resolve("fixture.yaml"), text);
  }

  @Test
  void theSimulatedBenchIsProvedAndSaysThatItIsSimulated() {
    Cli cli = Cli.run("selftest");
    assertThat(cli.exitCode()).isZero();
    assertThat(cli.err()).isEmpty();
    assertThat(cli.out())
        .startsWith("self-test of fixture 'simulated bench'   SIMULATED\n")
        .contains("plug 2: D0-30 to W1-31, D31 to W0\n", "  D31   W31 ", "    delay: 1200 us")
        .endsWith("PROVED: fixture 'simulated bench', 32 drives and 32 watches (SIMULATED)\n");
  }

  @Test
  void whatIsWrongIsInItsRowAndBelowWithWhereToLook() {
    Cli cli = Cli.run("selftest", "--fault", "W[3] stuck at ground");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.FAILED);
    assertThat(cli.out())
        .containsPattern("  D3    W3 .*  W3 is dead: it never reads 1\n")
        .containsPattern("  D4    W4 .*  ok\n")
        .contains("WRONG  W3 is dead: it never reads 1.\n    look first: meter the voltage")
        .endsWith("NOT PROVED: fixture 'simulated bench' (SIMULATED)\n");
  }

  @Test
  void asAnObject() {
    Cli cli = Cli.run("selftest", "--fault", "D[5] exchanged with D[6]", "--json");
    JsonObject json = JsonParser.parseString(cli.out()).getAsJsonObject();
    assertThat(json.keySet())
        .contains("fixture", "simulated", "passed", "proved", "findings", "channels", "delayUs");
    assertThat(json.get("passed").getAsBoolean()).isFalse();
    JsonObject finding = json.getAsJsonArray("findings").get(0).getAsJsonObject();
    assertThat(finding.get("says").getAsString()).isEqualTo("D5 and D6 are swapped");
    JsonObject trouble = finding.getAsJsonArray("oneOf").get(0).getAsJsonObject();
    assertThat(trouble.get("kind").getAsString()).isEqualTo("drives swapped");
    assertThat(json.getAsJsonArray("channels")).hasSize(32);
  }

  @Test
  void withOnePlugNothingIsProvedAndItIsSaidWhy() {
    Cli cli = Cli.run("selftest", "--plug", 1);
    assertThat(cli.exitCode()).isZero();
    assertThat(cli.out())
        .contains(
            "PASSED: fixture 'simulated bench' (SIMULATED), which does not prove it: D0 to D31 met"
                + " fewer than two watches");
  }

  @Test
  void aShortTripsAndNamesTheDrive() {
    Cli cli = Cli.run("selftest", "--fault", "out[7] bridged to GND");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.TRIPPED);
    assertThat(cli.err()).contains("the supply tripped with D7 on");
    assertThat(cli.out()).contains("Ended early: ").endsWith("(SIMULATED)\n");
    JsonObject json =
        JsonParser.parseString(
                Cli.run("selftest", "--json", "--fault", "out[7] bridged to GND").out())
            .getAsJsonObject();
    assertThat(json.get("end").getAsString()).isEqualTo("tripped");
  }

  @Test
  void whatCannotBeIsRefused() throws IOException {
    assertThat(Cli.run("selftest", "--plug", 3).err()).contains("has 2 plugs; wanted 1 to 2");
    assertThat(Cli.run("selftest", "--port", "/dev/none").err())
        .contains("nothing says what the fixture on that port has; wanted --fixture FILE");
    Path sinking = profile(PROFILE.replace("kind: source", "kind: sink"));
    Cli cli = Cli.run("selftest", "--fixture", sinking, "--port", "/dev/none");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err()).contains("sink; wanted drives that source");
    Cli none = Cli.run("selftest", "--fixture", profile(PROFILE), "--port", "/dev/none");
    assertThat(none.exitCode()).isEqualTo(ExitCode.LINK);
  }

  @Test
  void driversAreNotGivenMoreThanTheyMay() throws IOException {
    Path weak =
        profile(
            PROFILE
                .replace("kind: serial", "kind: simulated")
                .replace(
                    "kind: source,", "kind: source, held: 2, groups: {of: 3, current: 15 mA},"));
    Cli cli = Cli.run("selftest", "--fixture", weak);
    assertThat(cli.exitCode()).isZero();
    assertThat(cli.out()).contains("patterns of many drives at once would be too much");
  }

  /**
   * Six drives prove eight watches with two plugs, as long as a drive bears what two watches draw.
   */
  @Test
  void aDriveMayFeedTwoWatchesAndNotMoreThanItBears() throws IOException {
    String eight =
        PROFILE
            .replace("kind: serial", "kind: simulated")
            .replace("count: 6, load", "count: 8, load");
    Cli cli = Cli.run("selftest", "--fixture", profile(eight));
    assertThat(cli.exitCode()).as(cli.out() + cli.err()).isZero();
    assertThat(cli.out())
        .contains(
            "plug 1: D0-5 to W0-5, D0-1 to W6-7\n",
            "plug 2: D0-4 to W1-5, D5 to W0, D4-5 to W6-7\n")
        .contains("PROVED: fixture 'plain 6+6', 6 drives and 8 watches");
    Path weak =
        profile(
            eight.replace("count: 6, kind: source,", "count: 6, kind: source, current: 15 mA,"));
    Cli refused = Cli.run("selftest", "--fixture", weak);
    assertThat(refused.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(refused.err())
        .contains("D0 would feed 2 watches in plug 1, 20 mA; wanted no more than the 15 mA");
  }

  @Test
  void aPortIsNotDrivenWithoutSomebodysWord() throws IOException {
    Ptys.assumeAvailable();
    try (PtyPeer peer = PtyPeer.start(Devices.silent())) {
      Cli cli = Cli.run("selftest", "--fixture", profile(PROFILE), "--port", peer.port());
      assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
      assertThat(cli.err()).contains("no terminal to ask at", "--powered", "--plug N");
    }
  }

  /** A board on a port, its switched drives written down, and somebody at the terminal. */
  private final class AtPort {
    final List<BitSet> driven = new ArrayList<>();
    final List<Step> drivenToZero = new ArrayList<>();
    final List<String> asked = new ArrayList<>();
    final FixtureProfile board;
    final ChangingPlug plug;
    String out = "";
    String err = "";

    AtPort(FixtureProfile board, int plugOn, String... faults) {
      this.board = board;
      this.plug = new ChangingPlug(device(plugOn, faults));
    }

    Device device(int plugOn, String... faults) {
      Card card = SimulatedPlug.on(board, board.loopBack().plugs().get(plugOn - 1));
      SimSettings settings =
          SimSettings.of(1, "plug").withFaults(FaultNames.parseAll(List.of(faults), card));
      return new PacedBoard(card, settings, hello -> hello, Integer.MAX_VALUE, 1, noting());
    }

    private BoardEvents noting() {
      return new BoardEvents() {
        @Override
        public void drives(BitSet on) {
          driven.add((BitSet) on.clone());
        }

        @Override
        public void heard(Message fromHost) {
          if (fromHost instanceof Step step && !step.level().equals(step.enable())) {
            drivenToZero.add(step);
          }
        }

        @Override
        public void said(Message toHost) {
          // what is said is of no interest here
        }
      };
    }

    int run(Answers answers, Path file, String... more) {
      try (PtyPeer peer = PtyPeer.start(plug)) {
        StringWriter outText = new StringWriter();
        StringWriter errText = new StringWriter();
        Answers noted =
            prompt -> {
              asked.add(prompt);
              return answers.ask(prompt);
            };
        List<String> words =
            new ArrayList<>(List.of("--fixture", file.toString(), "--port", peer.port()));
        words.addAll(List.of(more));
        int exitCode =
            new CommandLine(new SelftestCommand(() -> Optional.of(noted)))
                .setExecutionExceptionHandler(new Failures())
                .setOut(new PrintWriter(outText, true))
                .setErr(new PrintWriter(errText, true))
                .execute(words.toArray(String[]::new));
        out = outText.toString();
        err = errText.toString();
        return exitCode;
      }
    }
  }

  @Test
  void onAPortBothPlugsAreAskedForAndAWrongOneIsAskedForAgain() throws IOException {
    Ptys.assumeAvailable();
    Path file = profile(PROFILE);
    AtPort bench = new AtPort(FixtureFile.read(file).value(), 1);
    int[] moves = {0};
    int exitCode =
        bench.run(
            prompt -> {
              if (prompt.contains("yes/no")) {
                assertThat(bench.driven).allMatch(BitSet::isEmpty);
                return Optional.of("yes");
              }
              moves[0]++;
              if (moves[0] == 2) { // at first nobody changes it
                bench.plug.change(bench.device(2));
              }
              return Optional.of("");
            },
            file);
    assertThat(exitCode).as(bench.err + bench.out).isZero();
    assertThat(bench.asked).hasSize(3);
    assertThat(bench.err)
        .contains(
            "1. No card is connected",
            "Plug 1 is in, and nothing else: D0-5 to W0-5.",
            "change to plug 2:",
            "The drives are down: this is plug 1 and not plug 2.");
    assertThat(bench.out)
        .contains("The profile states none. Paste under its 'watches'\n    delay: ")
        .contains("PROVED: fixture 'plain 6+6', 6 drives and 6 watches (SIMULATED)");
    assertThat(bench.driven.get(bench.driven.size() - 1).isEmpty()).isTrue();
    assertThat(bench.drivenToZero).as("what is not 1 is let go of").isEmpty();
  }

  /** It may be a short: one pulse through this plug, and no more. */
  @Test
  void aDriveThatDoesNotAnswerIsNotDrivenAgain() throws IOException {
    Ptys.assumeAvailable();
    Path file = profile(PROFILE);
    AtPort bench = new AtPort(FixtureFile.read(file).value(), 1, "W[2] stuck at ground");
    bench.run(prompt -> Optional.empty(), file, "--powered", "--plug", "1");
    assertThat(bench.driven.stream().filter(on -> on.get(2)).count()).isEqualTo(1);
    assertThat(bench.driven.stream().filter(on -> on.get(3)).count()).isGreaterThan(16);
  }

  @Test
  void onAPortNothingIsDrivenWithoutAYes() throws IOException {
    Ptys.assumeAvailable();
    Path file = profile(PROFILE);
    AtPort bench = new AtPort(FixtureFile.read(file).value(), 1);
    assertThat(bench.run(prompt -> Optional.of("no"), file)).isEqualTo(ExitCode.STOPPED);
    assertThat(bench.err).contains("Nothing was driven.");
    assertThat(bench.driven).allMatch(BitSet::isEmpty);
  }

  @Test
  void onAPortItMayBeStoppedBetweenTwoPlugs() throws IOException {
    Ptys.assumeAvailable();
    Path file = profile(PROFILE);
    AtPort bench = new AtPort(FixtureFile.read(file).value(), 1);
    int exitCode =
        bench.run(prompt -> Optional.of(prompt.contains("yes/no") ? "yes" : "stop"), file);
    assertThat(exitCode).isEqualTo(ExitCode.STOPPED);
    assertThat(bench.out).contains("Ended early", "NOT PROVED");
    assertThat(bench.driven.get(bench.driven.size() - 1).isEmpty()).isTrue();
  }

  @Test
  void onAPortOnePlugNeedsNobodyAtTheTerminal() throws IOException {
    Ptys.assumeAvailable();
    Path file = profile(PROFILE.replace("load: 10 mA", "load: 10 mA, delay: 5 ms"));
    AtPort bench = new AtPort(FixtureFile.read(file).value(), 1, "driver[2] coil open");
    int exitCode = bench.run(prompt -> Optional.empty(), file, "--powered", "--plug", "1");
    assertThat(exitCode).as(bench.err).isEqualTo(ExitCode.FAILED);
    assertThat(bench.asked).isEmpty();
    assertThat(bench.out)
        .contains("one of these, which the plugs that were on cannot tell apart: D2 is dead")
        .contains("The profile states 5000 us. Paste over that under its 'watches'");
  }
}
