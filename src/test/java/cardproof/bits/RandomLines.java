package cardproof.bits;

import java.util.Random;

/** Values for {@link RandomTerms#LINES}. */
final class RandomLines {
  private static final long[] EDGES = {0, 1, 2, -1, Long.MIN_VALUE};

  private RandomLines() {}

  /**
   * @param x 0 for known values only, else the higher the more bits are x
   */
  static Lines of(Random random, int x) {
    Lines lines = new Lines();
    for (Term.Line line : RandomTerms.LINES) {
      long mask = Words.mask(line.width());
      long value = random.nextInt(3) == 0 ? EDGES[random.nextInt(EDGES.length)] : random.nextLong();
      long unknown = 0;
      if (x > 0 && random.nextInt(4) < x) {
        unknown =
            switch (random.nextInt(3)) {
              case 0 -> 1L << random.nextInt(line.width());
              case 1 -> random.nextLong() & random.nextLong();
              default -> -1;
            };
      }
      unknown &= mask;
      lines.with(line.name(), new Literal(value & mask & ~unknown, unknown, line.width()));
    }
    return lines;
  }
}
