package cardproof.system;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.cli.RunInside;
import cardproof.log.RunDetail;
import cardproof.log.RunEnd;
import cardproof.log.Verdict;
import cardproof.pty.Journal;
import cardproof.pty.PacedBoard;
import cardproof.pty.Ptys;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.SplittableRandom;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A board that restarts, and a plug that is pulled, at random moments of a run on a register card:
 * what the run says, that it can be continued (by itself or by {@code --resume}), and that the
 * whole is that of an unbroken run.
 */
class LossTest {
  private static final String LATCH_CARD = "src/test/resources/system/latch-card.yaml";
  private static final String LATCH_PLAN = "src/test/resources/system/latch-plan.yaml";
  private static final int ALL = 200;
  private static final long LIVE_MS = 20_000;

  /** The silence time, 1 s, and what a busy machine may add. */
  private static final long DOWN_MS = 1500;

  @TempDir Path home;

  private final List<Long> downMs = new ArrayList<>();
  private Unbroken latch;
  private int goneOn;
  private int late;

  @BeforeAll
  static void onlyWherePtysAre() {
    Ptys.assumeAvailable();
  }

  /** What is done to a board in the middle of a run. */
  private interface Mishap {
    void befall(Board board, Random random) throws Exception;
  }

  @Test
  void someRestarts() throws Exception {
    restarts(ALL / 20);
  }

  @Test
  @Tag("long")
  void twoHundredRestarts() throws Exception {
    restarts(ALL);
  }

  @Test
  void someClosings() throws Exception {
    closings(ALL / 20);
  }

  @Test
  @Tag("long")
  void twoHundredClosings() throws Exception {
    closings(ALL);
  }

  /** In every second one the card has lost its supply as well. */
  private void restarts(int times) throws Exception {
    befall(
        "restarts",
        times,
        (board, random) ->
            board.command(random.nextBoolean() ? PacedBoard.RESET : PacedBoard.POWER_CUT),
        "the fixture restarted in the middle of the run (");
  }

  /** In every second one board and card were fed by that plug. */
  private void closings(int times) throws Exception {
    befall(
        "closings",
        times,
        (board, random) -> {
          board.replug();
          if (random.nextBoolean()) {
            board.command(PacedBoard.POWER_CUT);
          }
        },
        "the device is gone: ");
  }

  private void befall(String what, int times, Mishap mishap, String words) throws Exception {
    long seed = new Random().nextLong();
    System.out.println(times + " " + what + ", seed " + seed);
    latch = Unbroken.run(home, LATCH_PLAN);
    Path port = home.resolve("fixture");
    try (Board board = Board.with(LATCH_CARD, "seed=" + (seed & 0xFFFF))) {
      link(port, board);
      for (int i = 0; i < times; i++) {
        String as = what + " with seed " + seed + ", the " + (i + 1) + ". time";
        Random random = new Random(new SplittableRandom(seed + i).nextLong());
        trial(board, port, i % 2 == 0, random, mishap, words, as);
      }
    }
    assertThat(late).as("runs that were over too early").isLessThanOrEqualTo(1 + times / 10);
    Collections.sort(downMs);
    System.out.printf(
        "%d %s: %d went on by themselves, %d by --resume, %d came too late;"
            + " drives down after %d ms in the median, %d ms at worst%n",
        times,
        what,
        goneOn,
        times - goneOn - late,
        late,
        downMs.get(downMs.size() / 2),
        downMs.get(downMs.size() - 1));
    assertThat(downMs.get(downMs.size() - 1)).isLessThanOrEqualTo(DOWN_MS);
  }

  private void link(Path port, Board board) throws Exception {
    Path fresh = home.resolve("fresh");
    Files.createSymbolicLink(fresh, Path.of(board.port()));
    Files.move(fresh, port, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
  }

  private void trial(
      Board board,
      Path port,
      boolean byItself,
      Random random,
      Mishap mishap,
      String words,
      String as)
      throws Exception {
    Path log = Files.createTempFile(home, "log", ".sqlite");
    Files.delete(log);
    List<String> run =
        new ArrayList<>(
            List.of(
                "run",
                LATCH_PLAN,
                "--powered",
                "--port",
                port.toString(),
                "--log",
                log.toString()));
    if (byItself) {
      run.addAll(List.of("--reconnect", "20 s"));
    }
    int sessions = board.journal().sessions();
    int at = random.nextInt(latch.vectors() - 8);
    CompletableFuture<RunInside> running =
        CompletableFuture.supplyAsync(() -> RunInside.of(run.toArray(new String[0])));
    board
        .journal()
        .await(as + ": under way", j -> isAt(j, sessions, at) || running.isDone(), LIVE_MS);
    TimeUnit.MICROSECONDS.sleep(random.nextInt(20_000));
    long atNs = System.nanoTime();
    mishap.befall(board, random);
    link(port, board);
    RunInside ended = running.get(60, TimeUnit.SECONDS);
    if (ended.exit() == 0 && !ended.err().contains(words)) {
      late++; // the run was over before anything befell it
    } else if (byItself) {
      assertThat(ended.exit()).as(as + ended).isZero();
      assertThat(ended.err()).as(as).contains(words, "The board is back at " + port + ".");
      goneOn++;
    } else {
      assertThat(ended.exit()).as(as + ended).isEqualTo(3);
      assertThat(ended.out()).as(as).contains("Ended early: " + words);
      RunDetail detail = Unbroken.last(log);
      assertThat(detail.summary().end()).as(as).isEqualTo(RunEnd.LINK_LOST);
      assertThat(detail.summary().why()).as(as).startsWith(words);
      assertThat(Unbroken.count(log, Verdict.PASS) + Unbroken.count(log, Verdict.UNTESTED))
          .as(as)
          .isEqualTo(detail.summary().vectors());
      board.journal().await(as + ": drives down", j -> !j.live(), LIVE_MS);
      downMs.add(Math.max(0, (board.journal().last().atNs() - atNs) / 1_000_000));
      run.addAll(List.of("--resume", "1"));
      RunInside resumed = RunInside.of(run.toArray(new String[0]));
      assertThat(resumed.exit()).as(as + resumed).isZero();
    }
    latch.assertWhole(log, as);
    latch.assertNothingJudgedUnknown(log, as);
    assertThat(board.journal().live()).as(as).isFalse();
  }

  private static boolean isAt(Journal journal, int sessions, int ended) {
    return journal.sessions() > sessions && journal.ended() >= ended;
  }
}
