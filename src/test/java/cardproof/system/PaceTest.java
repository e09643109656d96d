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

  @TempDir Path home;

  @BeforeAll
  static void onlyWherePtysAre() {
    Ptys.assumeAvailable();
  }

  @Test
  void aFewVectorsOverAnAdapterThatTakes16Ms() throws Exception {
    measure(3, 16, "a few times");
  }

  @Tag("bench")
  @ParameterizedTest
  @CsvSource({"3, 0", "3, 16", "4, 16", "3, 32", "2, 16"})
  void manyVectors(int slots, int roundTripMs) throws Exception {
    measure(slots, roundTripMs, "many times");
  }

  private void measure(int slots, int roundTripMs, String step) throws Exception {
    try (Board board = Pace.board(slots, roundTripMs)) {
      Pace ahead = Pace.ofProgram(home, board, step);
      Pace alone = Pace.ofOneAtATime(board, step);
      System.out.printf(
          "%d slots, %d ms round trip: run / card time %s; one step at a time %s%n",
          slots, roundTripMs, ahead, alone);
      assertThat(ahead.ratio()).isBetween(1.0, MOST);
      assertThat(alone.ratio()).isGreaterThan(ahead.ratio());
    }
  }
}
