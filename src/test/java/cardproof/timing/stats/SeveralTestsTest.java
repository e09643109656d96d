package cardproof.timing.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class SeveralTestsTest {
  /** Benjamini and Hochberg, J. R. Statist. Soc. B 57 (1995), section 4.2. */
  private static final double[] THROMBOLYSIS = {
    .0001, .0004, .0019, .0095, .0201, .0278, .0298, .0344, .0459, .3240, .4262, .5719, .6528,
    .7590, 1
  };

  /** There Bonferroni's way rejects three; Holm's rejects no fewer, and the fourth is too large. */
  @Test
  void holmRejectsThreeOfTheFifteen() {
    double[] adjusted = Holm.adjusted(THROMBOLYSIS);
    assertThat(Arrays.stream(adjusted).filter(p -> p <= 0.05)).hasSize(3);
    assertThat(adjusted[0]).isCloseTo(15 * .0001, within(1e-12));
    assertThat(adjusted[3]).isCloseTo(12 * .0095, within(1e-12));
    assertThat(adjusted[14]).isEqualTo(1);
  }

  @Test
  void adjustedValuesRiseAndTheOrderGivenDoesNotMatter() {
    double[] adjusted = Holm.adjusted(THROMBOLYSIS);
    double[] backwards = IntStream.range(0, 15).mapToDouble(i -> THROMBOLYSIS[14 - i]).toArray();
    double[] other = Holm.adjusted(backwards);
    for (int i = 0; i < 15; i++) {
      assertThat(other[14 - i]).isEqualTo(adjusted[i]);
      assertThat(i == 0 || adjusted[i] >= adjusted[i - 1]).isTrue();
    }
  }

  /** Two-sided sign test: 2 x 0.5^5 for five changes one way, by exact arithmetic. */
  @Test
  void fiveChangesOneWayAreNotYetOneInTwenty() {
    assertThat(McNemar.pValue(5, 0)).isCloseTo(0.0625, within(1e-12));
    assertThat(McNemar.pValue(0, 6)).isCloseTo(0.03125, within(1e-12));
    assertThat(McNemar.pValue(0, 0)).isEqualTo(1);
    assertThat(McNemar.pValue(3, 3)).isEqualTo(1);
  }

  /**
   * Approval of 1600 people asked twice, 150 and 86 changed (Agresti, "An Introduction to
   * Categorical Data Analysis", from memory): far beyond chance. 2 x P(X <= 86 of 236) was computed
   * with an independent script as 3.7e-5.
   */
  @Test
  void manyMoreChangesOneWay() {
    assertThat(McNemar.pValue(150, 86)).isCloseTo(3.7e-5, within(0.1e-5));
  }
}
