package cardproof.system;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeFalse;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import cardproof.log.BenchLog;
import cardproof.log.RunDetail;
import cardproof.log.RunEnd;
import cardproof.log.RunFilter;
import cardproof.log.VectorRecord;
import cardproof.log.Verdict;
import cardproof.pty.Journal;
import cardproof.pty.PacedBoard;
import cardproof.pty.PosixSignals;
import cardproof.pty.Ptys;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
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
    Matcher message =
        Pattern.compile(
                Pattern.quote(board.port())
                    + ": (the fixture dropped its drives because it heard nothing from this computer"
                    + " for too long: for (\\d+\\.\\d) s this program did not go on \\(the computer"
                    + " slept, the program was stopped, or its disk hung\\))\\. Keep the computer from"
                    + " sleeping, and the program from being stopped, during a run\\.\n")
            .matcher(lastLine(ended.err()));
    assertThat(message.matches()).as(ended.err()).isTrue();
    assertThat(Double.parseDouble(message.group(2))).isBetween(0.7, 20.0);
    assertLogged(board.journal(), RunEnd.LINK_LOST, message.group(1));
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
    String why =
        "the fixture restarted in the middle of the run (brown-out: its own supply dipped)";
    assertThat(ended.err())
        .contains(board.port() + ": " + why + ". Feed the board from another supply");
    assertThat(ended.out()).contains("Go on with it: cardproof run ");
    assertLogged(board.journal(), RunEnd.LINK_LOST, why);
  }

  @Test
  void toldTwiceItDoesNotWaitForTheVector() throws Exception {
    Ended ended;
    long sentNs;
    Board board = Board.with(CARD);
    try (board;
        Program program = start(board)) {
      board.journal().await("drives live", WaysOutTest::isUnderWay, LIVE_MS);
      assumeFalse(PosixSignals.INT.isIgnoredBy(program.process()), "skipped: SIGINT is ignored");
      sentNs = System.nanoTime();
      PosixSignals.INT.send(program.process());
      PosixSignals.TERM.send(program.process());
      ended = program.await();
    }
    assertDownAfter(sentNs, board.journal());
    assertThat(ended.exit()).as(ended.toString()).isEqualTo(4);
    RunDetail run = logged(RunEnd.STOPPED);
    assertThat(run.summary().why()).startsWith("stopped by the operator (");
  }

  @Test
  void aBoardThatReadsNothingMoreIsLost() throws Exception {
    Ended ended;
    long sentNs;
    Board board = Board.with(CARD);
    try (board;
        Program program = start(board)) {
      board.journal().await("drives live", WaysOutTest::isUnderWay, LIVE_MS);
      sentNs = System.nanoTime();
      board.command(PacedBoard.STALL);
      ended = program.await();
    }
    assertDownAfter(sentNs, board.journal());
    assertThat(TimeUnit.NANOSECONDS.toMillis(ended.atNs() - sentNs)).isLessThan(8000);
    assertThat(ended.exit()).as(ended.toString()).isEqualTo(3);
    assertThat(ended.out()).contains("Ended early: ", "NOT PROVED: sum unit 01");
    assertLogged(board.journal(), RunEnd.LINK_LOST, logged(RunEnd.LINK_LOST).summary().why());
  }

  /** ENOSPC of a real file system: a small one in memory, filled to its last byte. */
  @Test
  void aFullDiskEndsTheRunAndTheLogKeepsWhatItHas() throws Exception {
    Path disk = Files.createDirectory(home.resolve("disk"));
    assumeTrue(mounted(disk), "skipped: this user may not mount a small file system");
    try {
      Ended ended;
      long fullNs;
      Board board = Board.with(CARD);
      Path log = disk.resolve("bench-log.sqlite");
      try (board;
          Program program =
              Program.start(home, arguments(board, "at random", log).toArray(new String[0]))) {
        board.journal().await("drives live", WaysOutTest::isUnderWay, LIVE_MS);
        fill(disk.resolve("ballast"));
        fullNs = System.nanoTime();
        ended = program.await();
      }
      assertThat(board.journal().last().on()).isZero();
      long tookMs = TimeUnit.NANOSECONDS.toMillis(board.journal().last().atNs() - fullNs);
      System.out.println("all drives down " + tookMs + " ms after the disk was full");
      assertThat(ended.exit()).as(ended.toString()).isEqualTo(2);
      assertThat(ended.err()).contains("bench-log.sqlite: the disk is full");
      assertThat(tookMs).isLessThan(DOWN_MS);
      Files.delete(disk.resolve("ballast"));
      // there may have been no room to write even that down
      RunDetail run = assertLogged(log, board.journal(), RunEnd.FAILED, RunEnd.INTERRUPTED);
      assertThat(run.summary().end() == RunEnd.FAILED)
          .isEqualTo(run.summary().why().contains("the disk is full"));
    } finally {
      shell("umount", "-l", disk.toString());
    }
  }

  private static void fill(Path ballast) throws Exception {
    try (OutputStream out = Files.newOutputStream(ballast)) {
      while (true) {
        out.write(new byte[512]);
      }
    } catch (IOException full) {
      assertThat(full).hasMessageContaining("No space left");
    }
  }

  private static boolean mounted(Path disk) throws Exception {
    return shell("mount", "-t", "tmpfs", "-o", "size=2m", "cardproof-test", disk.toString()) == 0;
  }

  private static int shell(String... command) throws Exception {
    try {
      Process process =
          new ProcessBuilder(command)
              .redirectErrorStream(true)
              .redirectOutput(ProcessBuilder.Redirect.DISCARD)
              .start();
      return process.waitFor(20, TimeUnit.SECONDS) ? process.exitValue() : -1;
    } catch (IOException missing) {
      return -1;
    }
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
    return Program.start(home, arguments(board, "at random", logFile()).toArray(new String[0]));
  }

  private static List<String> arguments(Board board, String step, Path log) {
    return List.of(
        "run", PLAN, "--port", board.port(), "--powered", "--only", step, "--log", log.toString());
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

  private RunDetail logged(RunEnd end) {
    try (BenchLog log = BenchLog.openForReading(logFile())) {
      RunDetail run = log.run(log.runs(RunFilter.real()).get(0).id()).orElseThrow();
      assertThat(run.summary().end()).isEqualTo(end);
      return run;
    }
  }

  private RunDetail assertLogged(Journal journal, RunEnd end, String why) {
    RunDetail run = assertLogged(logFile(), journal, end);
    assertThat(run.summary().why()).isEqualTo(why);
    return run;
  }

  private static RunDetail assertLogged(Path file, Journal journal, RunEnd... ends) {
    try (BenchLog log = BenchLog.openForReading(file)) {
      RunDetail run = log.run(log.runs(RunFilter.real()).get(0).id()).orElseThrow();
      assertThat(run.summary().end()).isIn((Object[]) ends);
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
