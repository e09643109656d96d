package cardproof.timing.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class OrderBoundTest {
  /** Smallest n for the largest value, from 1 - coverage^n by exact arithmetic (Wilks 1941). */
  @ParameterizedTest
  @CsvSource({
    "0.90, 0.95, 29",
    "0.95, 0.95, 59",
    "0.95, 0.99, 90",
    "0.99, 0.90, 230",
    "0.99, 0.95, 299",
    "0.99, 0.99, 459",
    "0.999, 0.95, 2995"
  })
  void theLargestOfSoManyIsABound(double coverage, double confidence, int n) {
    assertThat(OrderBound.smallestCount(1, coverage, confidence)).isEqualTo(n);
    assertThat(1 - Math.pow(coverage, n)).isGreaterThanOrEqualTo(confidence);
    assertThat(1 - Math.pow(coverage, n - 1.0)).isLessThan(confidence);
  }

  /** The r-th largest at 95 %/95 % and at 99 %/95 %: sums of binomial terms by exact arithmetic. */
  @ParameterizedTest
  @CsvSource({
    "0.95, 1, 59",
    "0.95, 2, 93",
    "0.95, 3, 124",
    "0.95, 4, 153",
    "0.95, 5, 181",
    "0.99, 1, 299",
    "0.99, 2, 473",
    "0.99, 3, 628"
  })
  void lowerRanksNeedMore(double coverage, int rank, int n) {
    assertThat(OrderBound.smallestCount(rank, coverage, 0.95)).isEqualTo(n);
    assertThat(OrderBound.rank(n, coverage, 0.95)).isEqualTo(OptionalInt.of(rank));
  }

  @Test
  void tooFewGiveNoBound() {
    assertThat(OrderBound.rank(58, 0.95, 0.95)).isEmpty();
  }

  /** What share of runs the largest of so many bounds: 0.05^(1/n), by exact arithmetic. */
  @ParameterizedTest
  @CsvSource({"5, 0.55", "10, 0.74", "20, 0.86", "59, 0.95"})
  void theShareThatAFewRunsBound(int runs, double share) {
    assertThat(OrderBound.coverage(runs, 1, 0.95)).isCloseTo(share, within(0.005));
    assertThat(OrderBound.coverage(runs, 1, 0.95))
        .isCloseTo(Math.pow(0.05, 1.0 / runs), within(1e-9));
  }

  @Test
  void coverageAndConfidenceAreTwoViewsOfOneThing() {
    double coverage = OrderBound.coverage(200, 4, 0.9);
    assertThat(OrderBound.confidence(200, 4, coverage)).isCloseTo(0.9, within(1e-9));
  }
}
