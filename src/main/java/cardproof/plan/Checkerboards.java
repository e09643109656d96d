package cardproof.plan;

/** Words in which runs of ones and zeros take turns. */
final class Checkerboards {
  private Checkerboards() {}

  /**
   * @param run lines that are alike, from 1; the lowest {@code run} lines are 1
   */
  static long word(int width, int run) {
    long word = 0;
    for (int bit = 0; bit < width; bit++) {
      word |= (bit / run) % 2 == 0 ? 1L << bit : 0;
    }
    return word;
  }
}
