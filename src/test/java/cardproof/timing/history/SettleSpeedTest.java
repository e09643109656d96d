package cardproof.timing.history;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.log.TenMillionTimes;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Ten million settle times read, sorted by transition and summarised, beside what the database
 * needs to read and sum the same rows.
 */
@Tag("bench")
final class SettleSpeedTest {
  private static final int ROUNDS = 8;

  @TempDir Path directory;

  @Test
  void notMuchSlowerThanTheDatabaseSumsTheSameRows() {
    Path file = directory.resolve("ten-million.bench");
    TenMillionTimes.write(file);
    List<Long> runs = LongStream.rangeClosed(2, TenMillionTimes.RUNS + 1).boxed().toList();
    double best = Double.POSITIVE_INFINITY;
    for (int round = 1; round <= ROUNDS; round++) {
      double sumS = seconds(() -> TenMillionTimes.sum(file));
      long[] summarised = new long[1];
      double settleS = seconds(() -> summarised[0] = summarised(file, runs));
      assertThat(summarised[0]).isEqualTo(TenMillionTimes.TIMES);
      System.out.printf(
          "round %d: summed in %.2f s, settle times in %.2f s, ratio %.2f%n",
          round, sumS, settleS, settleS / sumS);
      best = Math.min(best, settleS / sumS);
    }
    assertThat(best).isLessThan(1.5);
  }

  private static long summarised(Path file, List<Long> runs) {
    long[] n = new long[1];
    for (LineHistory line : SettleHistory.of(file, runs, any -> true).lines()) {
      line.pooled();
      line.forEachTransition(row -> n[0] += row.n());
    }
    return n[0];
  }

  private static double seconds(Runnable work) {
    long startNs = System.nanoTime();
    work.run();
    return (System.nanoTime() - startNs) / 1e9;
  }
}
