package cardproof.timing.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;

class OverTimeTest {
  /** NIST/SEMATECH e-Handbook 6.3.2.4: lambda 0.3, target 50, s 2.0539. */
  private static final double[] NIST = {
    52, 47, 53, 49.3, 50.1, 47, 51, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6,
    52.4, 53.6, 52.1
  };

  @Test
  void theHandbooksChart() {
    Ewma ewma = new Ewma(0.3);
    double[] means = ewma.of(50, NIST);
    double[] first = {50.60, 49.52, 50.56, 50.18, 50.16};
    for (int i = 0; i < first.length; i++) {
      assertThat(means[i]).isCloseTo(first[i], within(0.005));
    }
    double limit = 3 * 2.0539 * ewma.spread(10_000);
    assertThat(50 + limit).isCloseTo(52.5884, within(0.0001));
    assertThat(50 - limit).isCloseTo(47.4115, within(0.0002));
    assertThat(Arrays.stream(means).map(mean -> Math.abs(mean - 50)).max().orElseThrow())
        .isLessThan(limit);
  }

  @Test
  void theFirstMeansSpreadLess() {
    assertThat(new Ewma(0.2).spread(1)).isCloseTo(0.2, within(1e-12));
    assertThat(new Ewma(1).spread(1)).isEqualTo(1);
  }

  /**
   * Rainfall ratio of five years of cloud seeding: Hollander and Wolfe, "Nonparametric Statistical
   * Methods", example 9.1 (from memory): slope -0.056.
   */
  @Test
  void theTextbooksClouds() {
    double[] year = {1, 2, 3, 4, 5};
    double[] ratio = {1.26, 1.27, 1.12, 1.16, 1.03};
    assertThat(TheilSen.slope(year, ratio)).isCloseTo(-0.05625, within(1e-9));
  }

  @Test
  void oneWildValueDoesNotMoveTheSlope() {
    double[] x = {0, 1, 2, 3, 4, 5, 6};
    double[] y = {0, 2, 4, 600, 8, 10, 12};
    assertThat(TheilSen.slope(x, y)).isEqualTo(2);
    assertThat(TheilSen.slope(new double[] {3, 3}, new double[] {1, 2})).isNaN();
  }

  @Test
  void bunchesAreToldFromChance() {
    SplittableRandom random = new SplittableRandom(5);
    long[] bunch = LongStream.range(400, 410).toArray();
    assertThat(Clustering.pValue(bunch, 1000, 999, random)).isEqualTo(0.001);
    long[] even = LongStream.range(0, 10).map(i -> i * 100 + 50).toArray();
    assertThat(Clustering.pValue(even, 1000, 999, random)).isGreaterThan(0.9);
    assertThat(Clustering.pValue(new long[] {1, 2, 3, 4}, 1000, 999, random)).isEqualTo(1);
  }

  /** By chance alone one in twenty is called a bunch, and no more. */
  @Test
  void chanceIsSeldomCalledABunch() {
    long seed = System.nanoTime();
    SplittableRandom random = new SplittableRandom(seed);
    int called = 0;
    for (int i = 0; i < 500; i++) {
      long[] failures = random.longs(0, 1000).distinct().limit(8).sorted().toArray();
      called += Clustering.pValue(failures, 1000, 99, random) <= 0.05 ? 1 : 0;
    }
    assertThat(called / 500.0).as("seed %d", seed).isBetween(0.01, 0.10);
  }
}
