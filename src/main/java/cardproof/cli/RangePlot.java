package cardproof.cli;

import cardproof.timing.SettleTimes;

/**
 * Settle times as a row of characters over a scale that begins at 0: {@code -} from the least to
 * the largest, {@code =} from the median to the 90th percentile, {@code O} the median.
 */
final class RangePlot {
  private final int width;
  private final double endUs;

  /**
   * @param width in characters
   * @param longestUs what has to fit
   */
  RangePlot(int width, double longestUs) {
    this.width = width;
    this.endUs = roundUp(longestUs);
  }

  /** The scale's end, a round figure. */
  double endUs() {
    return endUs;
  }

  String of(SettleTimes times) {
    char[] row = " ".repeat(width).toCharArray();
    fill(row, times.minUs(), times.maxUs(), '-');
    fill(row, times.medianUs(), times.p90Us(), '=');
    row[at(times.medianUs())] = 'O';
    return new String(row);
  }

  private void fill(char[] row, double fromUs, double toUs, char with) {
    for (int i = at(fromUs); i <= at(toUs); i++) {
      row[i] = with;
    }
  }

  private int at(double us) {
    return (int) Math.min(width - 1L, Math.round(us / endUs * (width - 1)));
  }

  /** 1, 2 or 5 times a power of ten, or a step of that size between. */
  private static double roundUp(double us) {
    double step = Math.pow(10, Math.floor(Math.log10(Math.max(us, 1))));
    double unit = us / step <= 2 ? step / 5 : us / step <= 5 ? step / 2 : step;
    return Math.ceil(us / unit) * unit;
  }
}
