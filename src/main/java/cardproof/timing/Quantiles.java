package cardproof.timing;

import org.apache.commons.statistics.descriptive.Quantile;
import org.apache.commons.statistics.descriptive.Quantile.EstimationMethod;

/**
 * Percentiles as the NIST/SEMATECH e-Handbook of Statistical Methods gives them in 7.2.6.2: the
 * value at position p (n + 1) of the n sorted values, in between by straight line, and the first or
 * last value where the position lies outside 1 to n. It is type 6 of Hyndman and Fan, "Sample
 * Quantiles in Statistical Packages" (The American Statistician 50, 1996).
 *
 * <p>So the median of an even count is the mean of the two middle values, and the 90th percentile
 * of fewer than nine values is the largest.
 */
final class Quantiles {
  private static final Quantile TYPE_6 =
      Quantile.withDefaults().with(EstimationMethod.HF6).withCopy(false);

  private Quantiles() {}

  /**
   * Percentiles of the values from {@code from} up to before {@code to}, which are reordered.
   *
   * @param fractions each from 0 to 1; 0 gives the least value, 1 the largest
   */
  static double[] of(double[] values, int from, int to, double... fractions) {
    return TYPE_6.evaluateRange(values, from, to, fractions);
  }
}
