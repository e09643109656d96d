package cardproof.timing.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ProportionTest {
  /** NIST/SEMATECH e-Handbook 7.2.4.1: 4 of 20 at 90 %, both sides, 0.071354 to 0.401029. */
  @Test
  void fourOfTwenty() {
    assertThat(Proportion.lower(4, 20, 0.95)).isCloseTo(0.071354, within(1e-6));
    assertThat(Proportion.upper(4, 20, 0.95)).isCloseTo(0.401028, within(1.5e-6));
  }

  /** 1 - 0.05^(1/n), by exact arithmetic. */
  @ParameterizedTest
  @CsvSource({"30, 0.0950, 5e-5", "100, 0.02951, 5e-6", "1000, 0.00299, 5e-6"})
  void noneOfMany(int trials, double bound, double within) {
    assertThat(Proportion.upper(0, trials, 0.95)).isCloseTo(bound, within(within));
    assertThat(Proportion.upper(0, trials, 0.95))
        .isCloseTo(1 - Math.pow(0.05, 1.0 / trials), within(1e-12));
    assertThat(Proportion.lower(0, trials, 0.95)).isZero();
  }

  @Test
  void allOfThem() {
    assertThat(Proportion.upper(7, 7, 0.95)).isEqualTo(1);
    assertThat(Proportion.lower(7, 7, 0.95)).isCloseTo(Math.pow(0.05, 1.0 / 7), within(1e-12));
  }
}
