package cardproof.bits;

/**
 * {@code **}: as wide as its base, the exponent self-determined; anything to the power 0 is 1 (IEEE
 * 1364-2005 table 5-6).
 */
final class Power extends Binary {
  Power(Node left, Node right) {
    super(left.width, left, right, left.decimal);
  }

  @Override
  void sizeOperands() {
    left.size(context());
    right.sizeAsPlaces();
  }

  @Override
  void step(Values in) {
    if ((left.unknown | right.unknown) != 0) {
      allUnknown();
      return;
    }
    long result = 1;
    long square = left.value;
    for (long rest = right.value; rest != 0; rest >>>= 1) {
      if ((rest & 1) != 0) {
        result *= square;
      }
      square *= square;
    }
    known(result);
  }
}
