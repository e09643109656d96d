package cardproof.plan;

import java.util.function.LongUnaryOperator;

/**
 * A code for every line of an interconnect. Vector {@code j} drives each line with bit {@code j} of
 * its code, so that a line shows over all vectors which one it is.
 *
 * @param lines from 1; any number for the codes, at most 64 for {@link #words}
 * @param vectors bits of each code
 * @param code by line, from 0
 */
record LineCodes(int lines, int vectors, LongUnaryOperator code) {

  /**
   * The line's number, counted from 1 so that no code is all zeros, in one bit more than the
   * numbers need where the last would be all ones: those two cannot be told from a line that is
   * stuck. {@code ceil(log2(lines + 2))} vectors (the counting sequence of Kautz, IEEE Trans.
   * Computers, 1974, as modified by Goel and McMahon, International Test Conference 1982; from
   * memory).
   */
  static LineCodes counting(int lines) {
    int vectors = Long.SIZE - Long.numberOfLeadingZeros(lines + 1L);
    return new LineCodes(lines, vectors, line -> line + 1);
  }

  /**
   * Codes with half of their bits set, in rising order. Of two such codes neither has all ones of
   * the other, and no larger set of codes is like that (Sperner, 1928), so there is none with fewer
   * vectors. Codes are found by their rank in the combinatorial number system (Knuth, The Art of
   * Computer Programming, 7.2.1.3).
   */
  static LineCodes constantWeight(int lines) {
    int vectors = 1;
    while (choose(vectors, weight(vectors)) < lines) {
      vectors++;
    }
    int bits = vectors;
    return new LineCodes(lines, bits, line -> ranked(line, bits, weight(bits)));
  }

  private static int weight(int vectors) {
    return Math.max(1, vectors / 2);
  }

  /** The word of a rank, from 0, among those of a width and a weight. */
  private static long ranked(long rank, int width, int weight) {
    long word = 0;
    long rest = rank;
    int ones = weight;
    for (int bit = width - 1; bit >= 0 && ones > 0; bit--) {
      long below = choose(bit, ones);
      if (rest >= below) {
        rest -= below;
        ones--;
        word |= 1L << bit;
      }
    }
    return word;
  }

  private static long choose(int n, int k) {
    long ways = k > n ? 0 : 1;
    for (int i = 1; i <= k && ways > 0; i++) {
      ways = ways * (n - k + i) / i;
    }
    return ways;
  }

  /** The vectors, line 0 in bit 0. */
  Generator words() {
    return Generators.of(vectors, this::word);
  }

  private long word(long vector) {
    long word = 0;
    for (int line = 0; line < lines; line++) {
      word |= (code.applyAsLong(line) >>> vector & 1) << line;
    }
    return word;
  }
}
