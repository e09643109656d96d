package cardproof.run;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Two clocks of which one is known to be wrong, over a line that takes its time. */
class ClockComparisonTest {
  private static final long S = 1_000_000_000L;

  /**
   * A result every 80 ms; most come within 3 ms, one in five up to 300 ms late, as when it had to
   * be asked for again.
   */
  private static ClockComparison over(long seconds, double fast, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    ClockComparison clocks = new ClockComparison();
    for (long realNs = 7 * S; realNs < (7 + seconds) * S; realNs += 80_000_000L) {
      long lateNs = random.nextLong(random.nextInt(5) == 0 ? 300_000_000L : 3_000_000L);
      clocks.take(realNs + lateNs, (long) (realNs * (1 + fast) / 1_000));
    }
    return clocks;
  }

  @ParameterizedTest
  @CsvSource({
    "0.02, faster, long, 98.0",
    "-0.02, slower, short, 102.0",
    "0.10, faster, long, 90.9"
  })
  void aDriftBeyondOnePercentIsToldWithWhatItMeans(
      double fast, String pace, String reads, String means) {
    ClockComparison clocks = over(20, fast, 4);
    assertThat(clocks.drift().orElseThrow()).isBetween(fast - 0.001, fast + 0.001);
    assertThat(clocks.warning().orElseThrow())
        .contains(
            String.format("%.1f %% %s than", Math.abs(fast) * 100, pace),
            "too " + reads + ":",
            "100 ms on it are " + means + " ms");
  }

  @ParameterizedTest
  @CsvSource({"0", "0.004", "-0.009"})
  void withinOnePercentNothingIsSaid(double fast) {
    for (long seed = 1; seed <= 200; seed++) {
      assertThat(over(60, fast, seed).warning()).as("seed %d", seed).isEmpty();
    }
  }

  @Test
  void aLineOfMoodsIsNoDrift() {
    for (long seed = 1; seed <= 200; seed++) {
      assertThat(over(6, 0, seed).warning()).as("seed %d", seed).isEmpty();
    }
  }

  @Test
  void aMomentIsTooShortToTell() {
    assertThat(over(4, 0.05, 1).drift()).isEmpty();
    assertThat(new ClockComparison().drift()).isEmpty();
  }

  /** A computer that slept for a minute, whose clock did not count meanwhile. */
  @Test
  void aSleepIsNoDrift() {
    ClockComparison clocks = over(10, 0.0, 1);
    clocks.startOver();
    for (int i = 0; i < 200; i++) {
      clocks.take((17 + i) * S, (17 + 60 + i) * 1_000_000L);
    }
    assertThat(clocks.warning()).isEmpty();
  }
}
