package cardproof.cli;

/**
 * A shift and its interval as a row of characters over a scale with 0 in the middle: {@code -} the
 * interval, {@code O} the shift, {@code |} the zero.
 */
final class ShiftPlot {
  private final int half;
  private final double endUs;

  /**
   * @param half characters on either side of the zero
   * @param largestUs what has to fit
   */
  ShiftPlot(int half, double largestUs) {
    this.half = half;
    this.endUs = Math.max(largestUs, 1);
  }

  String of(double lowUs, double shiftUs, double highUs) {
    char[] row = " ".repeat(2 * half + 1).toCharArray();
    for (int i = at(lowUs); i <= at(highUs); i++) {
      row[i] = '-';
    }
    row[half] = '|';
    row[at(shiftUs)] = 'O';
    return new String(row);
  }

  private int at(double us) {
    double share = Math.max(-1, Math.min(1, us / endUs));
    return half + (int) Math.round(share * half);
  }
}
