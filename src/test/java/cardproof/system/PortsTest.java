package cardproof.system;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.link.serial.SerialPorts;
import cardproof.log.BenchLog;
import cardproof.log.RunFilter;
import cardproof.log.RunSummary;
import cardproof.log.Verdict;
import cardproof.pty.Device;
import cardproof.pty.Devices;
import cardproof.pty.PosixSignals;
import cardproof.pty.PtyPeer;
import cardproof.pty.Ptys;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a user is told when there is no fixture where one should be. */
class PortsTest {
  private static final String SUM = "vectors/sum/card.yaml";
  private static final long MS = 1_000_000;

  @TempDir Path home;

  @BeforeAll
  static void onlyWherePtysAre() {
    Ptys.assumeAvailable();
  }

  @AfterEach
  void noDefectWasNoted() throws Exception {
    Path debugLog = home.resolve("cardproof/debug.log");
    if (Files.exists(debugLog)) {
      assertThat(Files.readString(debugLog)).doesNotContain("defect", "ERROR", "\tat ");
    }
  }

  @Test
  void aFixtureSaysWhoItIs() throws Exception {
    try (Board board = Board.with(SUM, "board=Gull Point 3")) {
      Ended ended = ask(board.port());
      assertThat(ended.err()).isEmpty();
      assertThat(ended.exit()).isZero();
      assertThat(ended.out())
          .isEqualTo(
              board.port()
                  + ": Gull Point 3, firmware 1.1.0, protocol 1.1\n"
                  + "  25 drives, 13 watches, 4 slots, sampled every 50.0 us\n");
    }
  }

  @Test
  void aSilentDevice() throws Exception {
    String message =
        "%s: nothing answered within 1000 ms; wanted a fixture that answers HELLO. Check the cable,"
            + " the board's power and its firmware, and that this is its port.\n";
    assertBothSay(Devices.silent(), message);
  }

  @Test
  void aDeviceThatSaysRandomBytes() throws Exception {
    assertForeign(Devices.garbage(4, 200, 5 * MS));
  }

  @Test
  void aDeviceThatSaysLinesOfText() throws Exception {
    assertForeign(Devices.text("Gull Point weather: wind 4 m/s, 7 deg", 20 * MS));
  }

  private void assertForeign(Device device) throws Exception {
    try (PtyPeer peer = PtyPeer.start(device)) {
      Ended ended = ask(peer.port());
      String err = ended.err().replaceFirst("sent [1-9][0-9]* bytes", "sent SOME bytes");
      assertRefused(
          new Ended(ended.exit(), ended.out(), err, ended.atNs()),
          peer.port()
              + ": something sent SOME bytes, but no answer to HELLO was among them; wanted a"
              + " fixture of protocol 1.1 at the speed of this port. Choose another port, or load the"
              + " fixture's firmware onto this board.\n");
    }
  }

  @Test
  void aFixtureOfALaterMajorVersion() throws Exception {
    try (Board board = Board.with(SUM, "major=2")) {
      String message =
          board.port()
              + ": the fixture speaks protocol 2.1; wanted protocol 1.x, which this program speaks."
              + " Use a newer version of this program, or load matching firmware.\n";
      assertRefused(ask(board.port()), message);
      assertRefused(run(board.port()), message);
      assertThat(board.journal().ended()).isZero();
    }
  }

  @Test
  void aFixtureTooNarrowForTheCard() throws Exception {
    try (Board board = Board.with("vectors/hold/card.yaml")) {
      assertRefused(
          run(board.port()),
          board.port()
              + ": the board 'Gull Point board' has 14 drives and 24 watches; wanted 25 drives and"
              + " 13 watches for card sum. Plug in the fixture that the profile describes, or name"
              + " its own profile.\n");
    }
  }

  @Test
  void aPortThatAnotherRunHas() throws Exception {
    try (Board board = Board.with(SUM);
        Program first = Program.start(home, runOf(board.port(), "at random"))) {
      board.journal().await("the first run under way", j -> j.live() && j.ended() > 0, 20_000);
      String message =
          board.port()
              + ": process "
              + first.process().pid()
              + " (java) has it open; wanted a port that nothing else uses. End that program, or"
              + " name another port.\n";
      assertRefused(ask(board.port()), message);
      assertRefused(run(board.port()), message);
      int endedThen = board.journal().ended();
      board.journal().await("the first run goes on", j -> j.ended() > endedThen + 2, 20_000);
      PosixSignals.TERM.send(first.process());
      assertThat(first.await().exit()).isEqualTo(4);
    }
    try (BenchLog log = BenchLog.openForReading(logFile())) {
      List<RunSummary> runs = log.runs(RunFilter.real());
      assertThat(runs).as("runs that were begun").hasSize(1);
      Map<Verdict, Long> counts = runs.get(0).counts();
      assertThat(counts.get(Verdict.PASS) + counts.get(Verdict.UNTESTED))
          .isEqualTo(runs.get(0).vectors());
    }
  }

  @Test
  void aPortThatIsNotThere() throws Exception {
    String port = "/dev/ttyGULL0";
    List<String> known = SerialPorts.list().stream().map(there -> there.name()).toList();
    String next =
        known.isEmpty()
            ? "No serial port is there at all: plug the board in, and see that its cable carries"
                + " data and not only power"
            : "Known: " + String.join(", ", known);
    Ended ended = run(port);
    assertRefused(
        ended,
        port + ": there is no such port; wanted a serial port of this machine. " + next + ".\n");
  }

  @Test
  void aRealCardIsNotDrivenBeforeSomebodyVouchesForItsSupply() throws Exception {
    try (Board board = Board.with(SUM)) {
      Ended ended = Program.run(home, "run", "vectors/sum/bring-up.yaml", "--port", board.port());
      assertThat(ended.exit()).isEqualTo(2);
      assertThat(ended.err())
          .isEqualTo(
              "run: a real card is about to be driven, and there is no terminal to ask at; wanted"
                  + " somebody's word that power and current limit are right. Check them, then say"
                  + " so with --powered.\n");
      assertThat(board.journal().ended()).isZero();
    }
  }

  private void assertBothSay(Device device, String message) throws Exception {
    try (PtyPeer peer = PtyPeer.start(device)) {
      assertRefused(ask(peer.port()), String.format(message, peer.port()));
      assertRefused(run(peer.port()), String.format(message, peer.port()));
    }
    try (BenchLog log = BenchLog.openForReading(logFile())) {
      assertThat(log.runs(RunFilter.real())).as("runs that were begun").isEmpty();
    }
  }

  private static void assertRefused(Ended ended, String message) {
    assertThat(ended.err()).isEqualTo(message);
    assertThat(ended.out()).isEmpty();
    assertThat(ended.exit()).isEqualTo(3);
  }

  private Ended ask(String port) throws Exception {
    return Program.run(home, "ports", "--ask", port, "--yes");
  }

  private Ended run(String port) throws Exception {
    return Program.run(home, runOf(port, "tide heights"));
  }

  private String[] runOf(String port, String step) {
    return new String[] {
      "run",
      "vectors/sum/bring-up.yaml",
      "--port",
      port,
      "--powered",
      "--only",
      step,
      "--log",
      logFile().toString()
    };
  }

  private Path logFile() {
    return home.resolve("bench-log.sqlite");
  }
}
