package cardproof.system;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.pty.Ptys;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A run takes hardly longer than the card itself, however long the line is: steps of about 45 ms
 * are queued in the fixture ahead of need. The board is simulated, but its time is real.
 */
class PaceTest {
  private static final double MOST = 1.05;

  /**
   * A short run has little room for a machine that is busy with something else: the best counts.
   */
  private static final int TRIES = 3;

  @TempDir Path home;

  @BeforeAll
  static void onlyWherePtysAre() {
    Ptys.assumeAvailable();
  }

  @Test
  void aFewVectorsOverAnAdapterThatTakes16Ms() throws Exception {
    try (Board board = Pace.board(3, 16)) {
      Pace ahead = Pace.ofProgram(home, board, "a few times");
      for (int i = 1; i < TRIES && ahead.ratio() > MOST; i++) {
        ahead = Pace.ofProgram(home, board, "a few times");
      }
      report(3, 16, ahead, Pace.ofOneAtATime(board, "a few times"));
    }
  }

  @Tag("bench")
  @ParameterizedTest
  @CsvSource({"3, 0", "3, 16", "4, 16", "3, 32", "2, 16"})
  void manyVectors(int slots, int roundTripMs) throws Exception {
    try (Board board = Pace.board(slots, roundTripMs)) {
      Pace ahead = Pace.ofProgram(home, board, "many times");
      report(slots, roundTripMs, ahead, Pace.ofOneAtATime(board, "many times"));
    }
  }

  /** In real time, one way or both over an adapter that takes 16 ms; and on a line that is bad. */
  @Tag("bench")
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "4 | 1.02 | link to host: delay 16 ms",
        "4 | 1.02 | link: delay 16 ms",
        "4 | 1.10 | link: lose 1 %, repeat 1 %, flip 1 %, reorder 1 %, delay 16 ms",
        "3 | 1.10 | link: lose 1 %, repeat 1 %, flip 1 %, reorder 1 %, delay 16 ms",
      })
  void fiveHundredVectors(int slots, double most, String fault) throws Exception {
    try (Board board = Pace.board(slots, fault)) {
      Pace pace = Pace.ofProgram(home, board, "five hundred");
      System.out.printf("%d slots, %s: run / card time %s%n", slots, fault, pace);
      assertThat(pace.vectors()).isEqualTo(500);
      assertThat(pace.ratio()).isBetween(1.0, most);
    }
  }

  private static void report(int slots, int roundTripMs, Pace ahead, Pace alone) {
    System.out.printf(
        "%d slots, %d ms round trip: run / card time %s; one step at a time %s%n",
        slots, roundTripMs, ahead, alone);
    assertThat(ahead.ratio()).isBetween(1.0, MOST);
    assertThat(alone.ratio()).isGreaterThan(ahead.ratio());
  }
}
