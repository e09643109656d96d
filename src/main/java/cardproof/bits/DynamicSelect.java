package cardproof.bits;

/**
 * Some bits of a slot, from a computed one up or down: {@code A[i]}, {@code A[i +: 4]}, {@code A[i
 * -: 4]}. Bits outside the slot read as x, those inside as they are; an index with an x gives x
 * (IEEE 1364-2005 clause 5.2.1).
 */
final class DynamicSelect extends Node {
  private final int slot;
  private final int slotWidth;
  private final Node index;
  private final int below;

  /**
   * @param below how many of the bits lie below the index
   */
  DynamicSelect(int slot, int slotWidth, Node index, int width, int below) {
    super(width, false, false);
    this.slot = slot;
    this.slotWidth = slotWidth;
    this.index = index;
    this.below = below;
  }

  @Override
  void sizeOperands() {
    index.sizeAsPlaces();
  }

  @Override
  void step(Values in) {
    long bits = Words.mask(width);
    value = 0;
    unknown = bits;
    // past the width plus 64 nothing of the slot is in reach, and the index may not fit an int
    if (index.unknown != 0 || Long.compareUnsigned(index.value, slotWidth + Words.MAX_WIDTH) >= 0) {
      return;
    }
    int low = (int) index.value - below;
    long there = Words.shiftRight(Words.mask(slotWidth), low) & bits;
    value = Words.shiftRight(in.value(slot), low) & there;
    unknown = Words.shiftRight(in.unknown(slot), low) & there | bits & ~there;
  }
}
