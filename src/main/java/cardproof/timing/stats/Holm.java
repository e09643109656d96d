package cardproof.timing.stats;

import java.util.Comparator;
import java.util.stream.IntStream;

/**
 * Several tests at once: S. Holm, "A simple sequentially rejective multiple test procedure"
 * (Scandinavian Journal of Statistics 6, 1979). The chance of even one false alarm among all is no
 * more than the level at which adjusted values are judged.
 */
public final class Holm {
  private Holm() {}

  /** Values to be judged as if each stood alone, in the order given. */
  public static double[] adjusted(double[] pValues) {
    int[] rising =
        IntStream.range(0, pValues.length)
            .boxed()
            .sorted(Comparator.comparingDouble(i -> pValues[i]))
            .mapToInt(Integer::intValue)
            .toArray();
    double[] adjusted = new double[pValues.length];
    double largest = 0;
    for (int i = 0; i < rising.length; i++) {
      largest = Math.max(largest, Math.min(1, (rising.length - i) * pValues[rising[i]]));
      adjusted[rising[i]] = largest;
    }
    return adjusted;
  }
}
