package cardproof.timing.stats;

/**
 * A mean that forgets: S. W. Roberts, "Control chart tests based on geometric moving averages"
 * (Technometrics 1, 1959), as the NIST/SEMATECH e-Handbook has it in 6.3.2.4.
 *
 * @param lambda weight of the newest value, above 0 and at most 1
 */
public record Ewma(double lambda) {
  public Ewma {
    if (!(lambda > 0 && lambda <= 1)) {
      throw new IllegalArgumentException("lambda " + lambda);
    }
  }

  /** The mean after each value. */
  public double[] of(double start, double... values) {
    double[] means = new double[values.length];
    double mean = start;
    for (int i = 0; i < values.length; i++) {
      mean = lambda * values[i] + (1 - lambda) * mean;
      means[i] = mean;
    }
    return means;
  }

  /** Standard deviation of the mean after so many values, as a share of that of one value. */
  public double spread(int values) {
    return Math.sqrt(lambda / (2 - lambda) * (1 - Math.pow(1 - lambda, 2.0 * values)));
  }
}
