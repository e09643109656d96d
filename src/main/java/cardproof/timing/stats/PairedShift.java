package cardproof.timing.stats;

import java.util.Arrays;
import org.apache.commons.statistics.inference.WilcoxonSignedRankTest;

/**
 * By how much paired values differ: J. L. Hodges and E. L. Lehmann, "Estimates of location based on
 * rank tests" (Annals of Mathematical Statistics 34, 1963), with J. W. Tukey's interval, and F.
 * Wilcoxon's signed rank test. The differences must not depend on one another, and lie about their
 * middle evenly.
 *
 * @param n pairs, those that do not differ among them
 * @param estimate median of the means of all pairs of differences
 * @param low the shift is no less; minus infinity where so few pairs give no bound
 * @param high the shift is no more
 * @param pValue how likely ranks so uneven are without a shift, two-sided; 1 where nothing differs
 */
public record PairedShift(int n, double estimate, double low, double high, double pValue) {
  /**
   * @param differences at least one
   * @param confidence that the shift lies between {@code low} and {@code high}
   */
  public static PairedShift of(double[] differences, double confidence) {
    WalshAverages averages = new WalshAverages(differences);
    int n = differences.length;
    long sum = SignedRanks.criticalSum(n, (1 - confidence) / 2);
    return new PairedShift(
        n,
        averages.median(),
        sum < 1 ? Double.NEGATIVE_INFINITY : averages.smallest(sum),
        sum < 1 ? Double.POSITIVE_INFINITY : averages.smallest(averages.count() + 1 - sum),
        pValue(differences));
  }

  /** Of those that differ, as Wilcoxon had it: a difference of nothing speaks for neither side. */
  private static double pValue(double[] differences) {
    double[] different = Arrays.stream(differences).filter(each -> each != 0).toArray();
    return different.length == 0
        ? 1
        : WilcoxonSignedRankTest.withDefaults().test(different).getPValue();
  }
}
