package cardproof.timing.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class PairedShiftTest {
  /**
   * Hamilton depression scale before and after a tranquilliser, nine patients: M. Hollander and D.
   * A. Wolfe, "Nonparametric Statistical Methods", example 3.1 (from memory, as are the results:
   * sum of positive ranks 40, one-sided p 0.0195, shift -0.46, 96 % interval -0.786 to -0.010).
   */
  private static final double[] BEFORE = {1.83, 0.50, 1.62, 2.48, 1.68, 1.88, 1.55, 3.06, 1.30};

  private static final double[] AFTER = {0.878, 0.647, 0.598, 2.05, 1.06, 1.29, 1.06, 3.14, 1.29};

  private static double[] differences() {
    return IntStream.range(0, BEFORE.length).mapToDouble(i -> AFTER[i] - BEFORE[i]).toArray();
  }

  @Test
  void theTextbooksPatients() {
    PairedShift shift = PairedShift.of(differences(), 0.96);
    assertThat(shift.n()).isEqualTo(9);
    assertThat(shift.estimate()).isCloseTo(-0.46, within(0.001));
    assertThat(shift.low()).isCloseTo(-0.786, within(0.001));
    assertThat(shift.high()).isCloseTo(-0.010, within(0.001));
    assertThat(shift.pValue()).isCloseTo(2 * 0.01953125, within(1e-9));
  }

  /** Every mean of a pair, sorted: what the counting must find without making them. */
  @Test
  void theAveragesAreThoseOfAllPairs() {
    long seed = System.nanoTime();
    SplittableRandom random = new SplittableRandom(seed);
    for (int n = 1; n < 40; n++) {
      double[] values = random.doubles(n, -5, 5).map(v -> Math.round(v * 10) / 10.0).toArray();
      double[] all =
          IntStream.range(0, n)
              .boxed()
              .flatMap(i -> IntStream.rangeClosed(0, i).mapToObj(j -> (values[i] + values[j]) / 2))
              .mapToDouble(Double::doubleValue)
              .sorted()
              .toArray();
      WalshAverages averages = new WalshAverages(values);
      assertThat(averages.count()).isEqualTo(all.length);
      for (int k = 1; k <= all.length; k++) {
        assertThat(averages.smallest(k)).as("seed %d n %d k %d", seed, n, k).isEqualTo(all[k - 1]);
      }
    }
  }

  /** With five pairs no interval of 95 % exists: 2 x 0.5^5 is 6 %. */
  @Test
  void tooFewPairsGiveNoInterval() {
    PairedShift shift = PairedShift.of(new double[] {1, 2, 3, 4, 5}, 0.95);
    assertThat(shift.low()).isEqualTo(Double.NEGATIVE_INFINITY);
    assertThat(shift.high()).isEqualTo(Double.POSITIVE_INFINITY);
    assertThat(shift.estimate()).isEqualTo(3);
    PairedShift six = PairedShift.of(new double[] {1, 2, 3, 4, 5, 6}, 0.95);
    assertThat(six.low()).isEqualTo(1);
    assertThat(six.high()).isEqualTo(6);
  }

  @Test
  void whatDoesNotDifferHasNoShift() {
    PairedShift shift = PairedShift.of(new double[20], 0.95);
    assertThat(shift.estimate()).isZero();
    assertThat(shift.low()).isZero();
    assertThat(shift.high()).isZero();
    assertThat(shift.pValue()).isEqualTo(1);
  }

  /** The exact sum and the normal one must not part where one gives way to the other. */
  @Test
  void theCriticalSumsMeet() {
    for (double probability : new double[] {0.025, 0.005, 0.0005}) {
      long exact = SignedRanks.criticalSum(60, probability);
      long normal = SignedRanks.criticalSum(61, probability);
      assertThat(normal - exact).as("for %s", probability).isBetween(10L, 32L);
    }
    // two-sided 5 %: D. B. Owen, "Handbook of Statistical Tables", sums no more than 3, 8, 52 for n
    // of 8,
    // 10, 20 reject (from memory)
    assertThat(
            Arrays.stream(new int[] {8, 10, 20})
                .mapToLong(n -> SignedRanks.criticalSum(n, 0.025) - 1))
        .containsExactly(3L, 8L, 52L);
  }

  /** Of 2000 samples about a known shift at most 5 % and two points more miss it. */
  @Test
  void theIntervalHoldsTheShiftAsOftenAsItSays() {
    long seed = System.nanoTime();
    SplittableRandom random = new SplittableRandom(seed);
    int missed = 0;
    for (int i = 0; i < 2000; i++) {
      double[] sample = random.doubles(25).map(u -> 0.8 + Math.log(u / (1 - u))).toArray();
      PairedShift shift = PairedShift.of(sample, 0.95);
      missed += shift.low() <= 0.8 && 0.8 <= shift.high() ? 0 : 1;
    }
    assertThat(missed / 2000.0).as("seed %d", seed).isBetween(0.03, 0.07);
  }

  /** Which is 2 of the 8 ways to give three ranks their signs. */
  @Test
  void differencesOfNothingSpeakForNeitherSide() {
    double[] differences = new double[60];
    differences[7] = 50;
    differences[20] = 100;
    differences[41] = 150;
    assertThat(PairedShift.of(differences, 0.95).pValue()).isEqualTo(0.25);
  }
}
