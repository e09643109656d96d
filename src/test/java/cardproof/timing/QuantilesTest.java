package cardproof.timing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.apache.commons.statistics.descriptive.Quantile;
import org.apache.commons.statistics.descriptive.Quantile.EstimationMethod;
import org.junit.jupiter.api.Test;

final class QuantilesTest {
  /** NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.6.2 "Percentiles". */
  private static final double[] NIST = {
    95.1772, 95.1567, 95.1937, 95.1959, 95.1442, 95.0610, 95.1591, 95.1195, 95.1065, 95.0925,
    95.1990, 95.1682
  };

  @Test
  void theHandbooksNinetiethPercentile() {
    double[] values = NIST.clone();
    // The handbook prints 95.1981 from 95.19807; same source.
    assertThat(Quantiles.of(values, 0, values.length, 0.9)[0]).isCloseTo(95.19807, within(1e-9));
  }

  @Test
  void itIsTypeSixOfNine() {
    // Types 1 to 9 of Hyndman and Fan on the handbook's data, worked out independently.
    double[] types = {
      95.1959, 95.1959, 95.1959, 95.19546, 95.19683, 95.19807, 95.19568, 95.19724, 95.19714
    };
    EstimationMethod[] methods = EstimationMethod.values();
    assertThat(methods).hasSize(types.length);
    for (int i = 0; i < types.length; i++) {
      double found = Quantile.withDefaults().with(methods[i]).evaluate(NIST, 0.9);
      assertThat(found).as(methods[i].name()).isCloseTo(types[i], within(5e-6));
    }
    assertThat(Quantiles.of(NIST.clone(), 0, NIST.length, 0.9)[0])
        .isEqualTo(Quantile.withDefaults().with(EstimationMethod.HF6).evaluate(NIST, 0.9));
  }

  @Test
  void onlyTheFirstValuesCount() {
    double[] values = {30, 10, 20, 1000, -1000};
    assertThat(Quantiles.of(values, 0, 3, 0, 0.5, 1)).containsExactly(10, 20, 30);
  }

  // By the definition in the handbook: position p (n + 1), the ends where that lies outside.
  @Test
  void smallCounts() {
    assertThat(SettleTimes.of(new double[] {7}, 0, 1)).isEqualTo(new SettleTimes(1, 7, 7, 7, 7));
    assertThat(SettleTimes.of(new double[] {9, 4}, 0, 2))
        .isEqualTo(new SettleTimes(2, 4, 6.5, 9, 9));
    assertThat(SettleTimes.of(new double[] {8, 7, 6, 5, 4, 3, 2, 1}, 0, 8).p90Us()).isEqualTo(8);
    assertThat(SettleTimes.of(new double[] {9, 8, 7, 6, 5, 4, 3, 2, 1}, 0, 9).p90Us()).isEqualTo(9);
    assertThat(SettleTimes.of(new double[] {10, 9, 8, 7, 6, 5, 4, 3, 2, 1}, 0, 10))
        .isEqualTo(new SettleTimes(10, 1, 5.5, 9.9, 10));
  }
}
