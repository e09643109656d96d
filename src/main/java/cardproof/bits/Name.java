package cardproof.bits;

/** Some bits of a slot, from a fixed one up: a whole name, {@code A[3]}, {@code A[7:4]}. */
final class Name extends Node {
  private final int slot;
  private final int low;
  private final long bits;

  Name(int slot, int low, int width) {
    super(width, false, false);
    this.slot = slot;
    this.low = low;
    this.bits = Words.mask(width);
  }

  @Override
  void sizeOperands() {
    // has none
  }

  @Override
  void step(Values in) {
    value = in.value(slot) >>> low & bits;
    unknown = in.unknown(slot) >>> low & bits;
  }
}
