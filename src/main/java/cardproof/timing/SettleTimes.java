package cardproof.timing;

/**
 * Settle times of one line in one direction, pooled over the vectors of a run. A description of
 * that plan's mix of transitions, never a bound. Times in microseconds from the drive change to the
 * last change of the line.
 *
 * @param n how many were measured, at least 1; censored ones are not among them
 * @param minUs least
 * @param medianUs of an even count the mean of the two middle ones
 * @param p90Us 90th percentile, NIST/SEMATECH e-Handbook 7.2.6.2; the largest where n is below 9
 * @param maxUs largest
 */
public record SettleTimes(int n, double minUs, double medianUs, double p90Us, double maxUs) {

  /**
   * Summary of the values from {@code from} up to before {@code to}, at least one; they are
   * reordered.
   */
  public static SettleTimes of(double[] valuesUs, int from, int to) {
    double[] found = Quantiles.of(valuesUs, from, to, 0, 0.5, 0.9, 1);
    return new SettleTimes(to - from, found[0], found[1], found[2], found[3]);
  }
}
