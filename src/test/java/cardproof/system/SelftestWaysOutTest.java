package cardproof.system;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeFalse;

import cardproof.pty.PosixSignals;
import cardproof.pty.Ptys;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** However a self-test ends, the drives go down; the fixture's own word says when. */
class SelftestWaysOutTest {
  /** The silence time, 1 s, and what a busy machine may add. */
  private static final long DOWN_MS = 1500;

  private static final long LIVE_MS = 20_000;
  private static final int ENOUGH = 3;

  /** A plug of relays, which take their time. */
  private static final String PLUG =
      """
      card: plug
      supply: {voltage: 12 V, limit: 1 A}
      inputs: {D: {width: 8, at: J1.1-8}}
      outputs: {W: {width: 8, at: J2.1-8}}
      behaviour: {W: D}
      limits: {settle: 350 ms}
      relays: {unseen-stages: 1, operate: 20 ms, release: 20 ms, bounce: 0.1 ms}
      """;

  private static final String PROFILE =
      "{fixture: plain 8+8, kind: serial, drives: {count: 8}, watches: {count: 8}}";

  @TempDir Path home;
  private String card;
  private String profile;

  @BeforeAll
  static void onlyWherePtysAre() {
    Ptys.assumeAvailable();
  }

  @BeforeEach
  void write() throws Exception {
    card = Files.writeString(home.resolve("plug.yaml"), PLUG).toString();
    profile = Files.writeString(home.resolve("fixture.yaml"), PROFILE).toString();
  }

  private Program start(Board board) throws Exception {
    return Program.start(
        home, "selftest", "--fixture", profile, "--port", board.port(), "--powered", "--plug", "1");
  }

  @ParameterizedTest
  @EnumSource(names = {"INT", "TERM", "HUP"})
  void toldToStopItDropsTheDrives(PosixSignals signal) throws Exception {
    Ended ended;
    long sentNs;
    Board board = Board.with(card);
    try (board;
        Program program = start(board)) {
      board.journal().await("drives live", j -> j.live() && j.acked() >= ENOUGH, LIVE_MS);
      assumeFalse(
          signal.isIgnoredBy(program.process()),
          () -> "skipped: these tests were started with SIG" + signal + " ignored, as by nohup");
      sentNs = System.nanoTime();
      signal.send(program.process());
      ended = program.await();
    }
    assertDown(board, sentNs);
    assertThat(ended.exit()).as(ended.toString()).isEqualTo(4);
    assertThat(ended.out()).contains("Ended early: the self-test was stopped", "NOT PROVED");
  }

  @Test
  void killedItLeavesTheDrivesToTheFixture() throws Exception {
    long sentNs;
    Board board = Board.with(card);
    try (board;
        Program program = start(board)) {
      board.journal().await("drives live", j -> j.live() && j.acked() >= ENOUGH, LIVE_MS);
      sentNs = System.nanoTime();
      program.process().destroyForcibly();
      program.await();
      // between two steps the drives are down anyway: only when the silence is over are they for
      // good
      TimeUnit.MILLISECONDS.sleep(DOWN_MS);
    }
    assertDown(board, sentNs);
  }

  @Test
  void unpluggedItSaysSo() throws Exception {
    Ended ended;
    Board board = Board.with(card);
    try (board;
        Program program = start(board)) {
      board.journal().await("drives live", j -> j.live() && j.acked() >= ENOUGH, LIVE_MS);
      board.unplug();
      ended = program.await();
    }
    assertThat(ended.exit()).as(ended.toString()).isEqualTo(3);
    assertThat(ended.err()).contains("the device is gone");
    assertThat(ended.out()).contains("NOT PROVED");
  }

  @Test
  void aBoardThatRestartsIsSaidToHave() throws Exception {
    Ended ended;
    Board board = Board.with(card, "resetAfter=" + 2 * ENOUGH);
    try (board;
        Program program = start(board)) {
      ended = program.await();
    }
    assertThat(ended.exit()).as(ended.toString()).isEqualTo(3);
    assertThat(ended.err()).contains("the fixture restarted with ");
  }

  private static void assertDown(Board board, long sentNs) {
    assertThat(board.journal().last().on()).isZero();
    long tookMs = TimeUnit.NANOSECONDS.toMillis(board.journal().last().atNs() - sentNs);
    System.out.println("all drives down " + tookMs + " ms after it");
    assertThat(tookMs).isBetween(0L, DOWN_MS);
  }
}
