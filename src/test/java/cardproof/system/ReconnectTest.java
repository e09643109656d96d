package cardproof.system;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.cli.RunInside;
import cardproof.pty.PacedBoard;
import cardproof.pty.Ptys;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Which board a run goes on with, and when it had better not. */
class ReconnectTest {
  private static final String CARD = "src/test/resources/system/latch-card.yaml";
  private static final String PLAN = "src/test/resources/system/latch-plan.yaml";
  private static final long LIVE_MS = 20_000;

  @TempDir Path home;

  @BeforeAll
  static void onlyWherePtysAre() {
    Ptys.assumeAvailable();
  }

  @Test
  void itsOwnBoardUnderAnotherNameAndNoOther() throws Exception {
    Path stranger = home.resolve("first-that-is-looked-at");
    Path back = home.resolve("socket-2");
    try (Board board = Board.with(CARD, "seed=11");
        Board other = Board.with(CARD, "seed=12")) {
      Files.createSymbolicLink(stranger, Path.of(other.port()));
      String before = board.port();
      CompletableFuture<RunInside> running =
          start(board, "--reconnect", "30s", "--other-port", stranger, "--other-port", back);
      board.journal().await("under way", j -> j.acked() > 3, LIVE_MS);
      board.replug();
      TimeUnit.MILLISECONDS.sleep(700); // the stranger has been looked at by then
      Files.createSymbolicLink(back, Path.of(board.port()));
      RunInside ended = running.get(60, TimeUnit.SECONDS);
      assertThat(ended.exit()).as(ended.toString()).isZero();
      assertThat(ended.err())
          .contains(before + ": the device is gone", "The board is back at " + back + ".");
      assertThat(ended.out())
          .contains("at " + back, "continues run 1 at vector ", "PROVED: latch unit 01");
      assertThat(other.journal().sessions()).as("sessions of the stranger").isZero();
      assertThat(board.journal().live()).isFalse();
    }
  }

  @Test
  void aBoardThatDoesNotComeBackIsGivenUp() throws Exception {
    try (Board board = Board.with(CARD)) {
      CompletableFuture<RunInside> running = start(board, "--reconnect", "1 s");
      board.journal().await("under way", j -> j.acked() > 3, LIVE_MS);
      board.replug();
      RunInside ended = running.get(60, TimeUnit.SECONDS);
      assertThat(ended.exit()).as(ended.toString()).isEqualTo(3);
      assertThat(ended.out()).contains("Go on with it: cardproof run ");
    }
  }

  /** A vector that pulls the board's supply down would do so for ever. */
  @Test
  void aBoardThatIsLostTwiceAtOneVectorIsNotTriedAThirdTime() throws Exception {
    try (Board board = Board.with("vectors/hold/card.yaml")) {
      CompletableFuture<RunInside> running =
          startOf("vectors/hold/bring-up.yaml", board, "--reconnect", "20 s");
      board.journal().await("under way", j -> j.acked() > 3, LIVE_MS);
      int sessions = board.journal().sessions();
      board.command(PacedBoard.RESET);
      int more = 0;
      while (!running.isDone()) {
        int then = sessions;
        board
            .journal()
            .await("again", j -> j.sessions() > then && j.live() || running.isDone(), LIVE_MS);
        sessions = board.journal().sessions();
        if (!running.isDone()) {
          board.command(PacedBoard.RESET);
          more++;
        }
      }
      RunInside ended = running.get();
      assertThat(ended.exit()).as(ended.toString()).isEqualTo(3);
      assertThat(ended.err())
          .contains(" before: it is not tried again. Look at what that vector switches on.");
      assertThat(more).as("times after the first").isBetween(1, 5);
      assertThat(board.journal().live()).isFalse();
    }
  }

  @Test
  void whatIsAskedForIsChecked() {
    assertRefused(
        "--reconnect: 'soon' is no time to wait; wanted such as '30 s' or '2 min'.",
        "--reconnect",
        "soon");
    assertRefused(
        "--reconnect: '0 s' is no time to wait; wanted such as '30 s' or '2 min'.",
        "--reconnect",
        "0 s");
    assertRefused(
        "--other-port: nothing waits for a board that is gone; wanted --reconnect TIME with it.",
        "--other-port",
        "/dev/ttyACM1");
  }

  private void assertRefused(String message, String... options) {
    List<String> words = new ArrayList<>(List.of("run", PLAN, "--port", "/dev/none"));
    words.addAll(List.of(options));
    RunInside ended = RunInside.of(words.toArray(new String[0]));
    assertThat(ended.exit()).isEqualTo(2);
    assertThat(ended.err()).isEqualTo(message + "\n");
  }

  private CompletableFuture<RunInside> start(Board board, Object... more) {
    return startOf(PLAN, board, more);
  }

  private CompletableFuture<RunInside> startOf(String plan, Board board, Object... more) {
    List<String> words =
        new ArrayList<>(
            List.of(
                "run",
                plan,
                "--powered",
                "--port",
                board.port(),
                "--log",
                home.resolve("log.sqlite").toString()));
    for (Object word : more) {
      words.add(word.toString());
    }
    return CompletableFuture.supplyAsync(() -> RunInside.of(words.toArray(new String[0])));
  }
}
