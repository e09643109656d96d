package cardproof.plan;

/**
 * Every carry an adder can make from one single start, as joined operands {@code A B}: {@code B} is
 * 1 in the bit where the carry is born and {@code A} in that bit and all those through which it
 * runs. It stops in the bit above, or leaves at the top. Sorted by how far it runs, so that a limit
 * that is too short shows where it begins to be.
 *
 * <p>With {@code n} bits there are {@code n - length + 1} chains of each length, {@code n(n+1)/2}
 * together.
 */
final class CarryChains implements Generator {
  private final int width;

  CarryChains(int width) {
    this.width = width;
  }

  @Override
  public long count() {
    return (long) width * (width + 1) / 2;
  }

  @Override
  public long at(long index) {
    int length = 1;
    long start = index;
    while (start >= width - length + 1) {
      start -= width - length + 1;
      length++;
    }
    long a = Generators.mask(length) << start;
    long b = 1L << start;
    return a << width | b;
  }
}
