package cardproof.system;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeFalse;

import cardproof.log.BenchLog;
import cardproof.log.RunDetail;
import cardproof.log.RunEnd;
import cardproof.log.RunFilter;
import cardproof.log.VectorRecord;
import cardproof.log.Verdict;
import cardproof.pty.Journal;
import cardproof.pty.PosixSignals;
import cardproof.pty.Ptys;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.LongStream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * However a run ends, the drives go down, and every vector that was acknowledged to the fixture is
 * in the log. When the drives went down is the fixture's own word.
 */
class WaysOutTest {
  private static final String CARD = "vectors/sum/card.yaml";
  private static final String PLAN = "vectors/sum/bring-up.yaml";
  private static final int VECTORS_OF_STEP = 200;

  /** The silence time, 1 s, and what a busy machine may add. */
  private static final long DOWN_MS = 1500;

  private static final long LIVE_MS = 20_000;
  private static final int ENOUGH = 3;

  @TempDir Path home;

  @BeforeAll
  static void onlyWherePtysAre() {
    Ptys.assumeAvailable();
  }

  @ParameterizedTest
  @EnumSource(names = {"INT", "TERM", "HUP"})
  void toldToStopItDropsTheDrivesAndSaysSo(PosixSignals signal) throws Exception {
    Ended ended;
    long sentNs;
    Board board = Board.with(CARD);
    try (board;
        Program program = start(board)) {
      board.journal().await("drives live", WaysOutTest::isUnderWay, LIVE_MS);
      assumeFalse(
          signal.isIgnoredBy(program.process()),
          () -> "skipped: these tests were started with SIG" + signal + " ignored, as by nohup");
      sentNs = System.nanoTime();
      signal.send(program.process());
      ended = program.await();
    }
    assertDownAfter(sentNs, board.journal());
    assertThat(ended.exit()).isEqualTo(4);
    String why = "stopped by the operator (" + signal + ")";
    assertThat(ended.out()).contains("Ended early: " + why + ".", "NOT PROVED: sum unit 01");
    assertThat(ended.out()).contains(" untested");
    assertLogged(board.journal(), RunEnd.STOPPED, why);
  }

  @Test
  void killedItLeavesTheDrivesToTheFixtureAndTheVectorsInTheLog() throws Exception {
    Ended ended;
    long sentNs;
    Board board = Board.with(CARD);
    try (board;
        Program program = start(board)) {
      board.journal().await("drives live", WaysOutTest::isUnderWay, LIVE_MS);
      sentNs = System.nanoTime();
      program.process().destroyForcibly();
      ended = program.await();
      board.journal().await("drives down", journal -> !journal.live(), LIVE_MS);
      assertThat(ended.exit()).isEqualTo(128 + 9);
      assertDownAfter(sentNs, board.journal());
      assertLogged(board.journal(), RunEnd.INTERRUPTED, "");
      assertLogCommandSays(
          "interrupted: the program ended without a word; every vector it had reported is here\n"
              + "Go on with it: cardproof run vectors/sum/bring-up.yaml --resume 1 --port ");

      Ended again =
          Program.run(
              home,
              "run",
              PLAN,
              "--port",
              board.port(),
              "--powered",
              "--log",
              logFile().toString(),
              "--resume",
              "1");
      assertThat(again.exit()).as(again.toString()).isZero();
      assertThat(again.out()).contains("continues run 1 at vector ");
      try (BenchLog log = BenchLog.openForReading(logFile())) {
        List<Long> numbers = new ArrayList<>();
        log.forEachVectorOfAll(2, vector -> numbers.add(vector.number()));
        assertThat(numbers).isEqualTo(LongStream.range(0, VECTORS_OF_STEP).boxed().toList());
      }
    }
    assertThat(board.journal().live()).as("drives after the next run").isFalse();
  }

  @Test
  void frozenItLosesTheFixtureAndSaysSoOnceItGoesOn() throws Exception {
    Ended ended;
    long sentNs;
    Board board = Board.with(CARD);
    try (board;
        Program program = start(board)) {
      board.journal().await("drives live", WaysOutTest::isUnderWay, LIVE_MS);
      sentNs = System.nanoTime();
      PosixSignals.STOP.send(program.process());
      board.journal().await("drives down", journal -> !journal.live(), LIVE_MS);
      PosixSignals.CONT.send(program.process());
      ended = program.await();
    }
    assertDownAfter(sentNs, board.journal());
    assertThat(ended.exit()).as(ended.toString()).isEqualTo(3);
    String why =
        "the fixture dropped its drives because it heard nothing from this computer for too long";
    assertThat(ended.err()).contains(board.port() + ": " + why + ".");
    assertLogged(board.journal(), RunEnd.LINK_LOST, why);
  }

  @Test
  void whenTheFixtureRestartsItDoesNotGoOn() throws Exception {
    Ended ended;
    Board board = Board.with(CARD, "resetAfter=" + 2 * ENOUGH);
    try (board;
        Program program = start(board)) {
      ended = program.await();
    }
    assertThat(board.journal().live()).isFalse();
    assertThat(ended.exit()).as(ended.toString()).isEqualTo(3);
    String why = "the fixture restarted in the middle of the run";
    assertThat(ended.err()).contains(board.port() + ": " + why + ". Look for a supply that dips");
    assertLogged(board.journal(), RunEnd.LINK_LOST, why);
  }

  @Test
  void unpluggedItSaysSoAtOnce() throws Exception {
    Ended ended;
    long pulledNs;
    Board board = Board.with(CARD);
    try (board;
        Program program = start(board)) {
      board.journal().await("drives live", WaysOutTest::isUnderWay, LIVE_MS);
      pulledNs = System.nanoTime();
      board.unplug();
      ended = program.await();
    }
    assertThat(TimeUnit.NANOSECONDS.toMillis(ended.atNs() - pulledNs)).isLessThan(2000);
    assertThat(ended.exit()).isEqualTo(3);
    Matcher message =
        Pattern.compile(
                Pattern.quote(board.port())
                    + ": (the device is gone: [a-z0-9 ]+)\\. Check the cable and the board's power,"
                    + " then start again; the fixture drops its drives by itself\\.\n")
            .matcher(lastLine(ended.err()));
    assertThat(message.matches()).as(ended.err()).isTrue();
    String why = message.group(1);
    assertThat(ended.out()).contains("Ended early: " + why + ".\n", "NOT PROVED: sum unit 01");
    RunDetail run = assertLogged(board.journal(), RunEnd.LINK_LOST, why);
    assertThat(run.summary().counts().get(Verdict.UNTESTED)).isPositive();
    assertLogCommandSays("link lost: " + why + "\n");
  }

  private Program start(Board board) throws Exception {
    return Program.start(home, arguments(board, "at random"));
  }

  private String[] arguments(Board board, String step) {
    return new String[] {
      "run",
      PLAN,
      "--port",
      board.port(),
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

  /** Drives are on, some vectors are done, and most are not. */
  private static boolean isUnderWay(Journal journal) {
    return journal.live() && journal.acked() >= ENOUGH;
  }

  private static void assertDownAfter(long sentNs, Journal journal) {
    assertThat(journal.last().on()).as("drives on at the end of %s", journal).isZero();
    long tookMs = TimeUnit.NANOSECONDS.toMillis(journal.last().atNs() - sentNs);
    System.out.println("all drives down " + tookMs + " ms after it");
    assertThat(tookMs).isBetween(0L, DOWN_MS);
  }

  private RunDetail assertLogged(Journal journal, RunEnd end, String why) {
    try (BenchLog log = BenchLog.openForReading(logFile())) {
      RunDetail run = log.run(log.runs(RunFilter.real()).get(0).id()).orElseThrow();
      assertThat(run.summary().end()).isEqualTo(end);
      assertThat(run.summary().why()).isEqualTo(why);
      assertThat(run.start().plannedVectors()).isEqualTo(VECTORS_OF_STEP);
      List<VectorRecord> records = new ArrayList<>();
      log.forEachVector(run.summary().id(), records::add);
      assertThat(records.size()).isBetween(journal.acked(), VECTORS_OF_STEP - 1);
      for (int number = 0; number < records.size(); number++) {
        assertThat(records.get(number).number()).isEqualTo(number);
        if (number < journal.acked()) {
          assertThat(records.get(number).verdict()).as("vector %d", number).isEqualTo(Verdict.PASS);
        }
      }
      // Of what ended, at most what was on its way is without a verdict: a slot's worth.
      long passed = run.summary().counts().get(Verdict.PASS);
      assertThat(passed).isBetween((long) journal.acked(), (long) journal.ended());
      return run;
    }
  }

  private void assertLogCommandSays(String ending) throws Exception {
    Ended ended = Program.run(home, "log", logFile().toString(), "--run", "1");
    assertThat(ended.exit()).isZero();
    assertThat(ended.out()).contains("\n" + ending);
    assertThat(ended.out()).contains("of " + VECTORS_OF_STEP + " vectors tested");
  }

  private static String lastLine(String text) {
    return text.substring(text.lastIndexOf('\n', text.length() - 2) + 1);
  }
}
