package cardproof.bits;

/** {@code << >>} and, the same for unsigned words, {@code <<< >>>}; an x in the places gives x. */
final class Shift extends Binary {
  private final boolean towardsZero;

  private Shift(boolean towardsZero, Node left, Node right) {
    super(left.width, left, right, left.decimal);
    this.towardsZero = towardsZero;
  }

  static Shift left(Node left, Node right) {
    return new Shift(false, left, right);
  }

  static Shift right(Node left, Node right) {
    return new Shift(true, left, right);
  }

  @Override
  void sizeOperands() {
    left.size(context());
    right.sizeAsPlaces();
  }

  @Override
  void step(Values in) {
    if (right.unknown != 0) {
      allUnknown();
      return;
    }
    boolean all = Long.compareUnsigned(right.value, Words.MAX_WIDTH) >= 0;
    int places = all ? Words.MAX_WIDTH : (int) right.value;
    places = towardsZero ? places : -places;
    value = Words.shiftRight(left.value, places) & mask;
    unknown = Words.shiftRight(left.unknown, places) & mask;
  }
}
