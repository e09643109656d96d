package cardproof.timing.stats;

import java.util.Arrays;
import org.apache.commons.statistics.descriptive.Median;

/**
 * A slope that single wild values do not move: the median of the slopes of all pairs (H. Theil
 * 1950; P. K. Sen, Journal of the American Statistical Association 63, 1968).
 */
public final class TheilSen {
  private TheilSen() {}

  /**
   * @param x of the points; pairs with the same one count for nothing
   * @param y of the points
   * @return not a number where no two points differ in x
   */
  public static double slope(double[] x, double[] y) {
    double[] slopes = new double[x.length * (x.length - 1) / 2];
    int count = 0;
    for (int i = 0; i < x.length; i++) {
      for (int j = i + 1; j < x.length; j++) {
        if (x[i] != x[j]) {
          slopes[count++] = (y[j] - y[i]) / (x[j] - x[i]);
        }
      }
    }
    return count == 0 ? Double.NaN : Median.withDefaults().evaluate(Arrays.copyOf(slopes, count));
  }
}
