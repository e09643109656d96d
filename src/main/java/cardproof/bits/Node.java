package cardproof.bits;

/**
 * One operand or operator of a compiled expression, with the register that holds its result.
 *
 * <p>Nodes are kept in the order of evaluation, operands first, so that neither sizing nor
 * evaluation recurses. Sizing follows IEEE 1364-2005 clause 5.4 and 5.5: {@link #width} is the
 * self-determined width, {@link #mask} covers the width the context asks for. A register is always
 * cut to that mask, so extending an operand with zeros costs nothing.
 */
abstract class Node {
  /** Bits, by the rules for a self-determined expression (IEEE 1364-2005 table 5-22). */
  final int width;

  /** Whether it reads no slot. */
  final boolean constant;

  /** Whether its width comes from a decimal number, which has none of its own. */
  final boolean decimal;

  private int context;
  long mask;
  long value;
  long unknown;

  Node(int width, boolean constant, boolean decimal) {
    this.width = width;
    this.constant = constant;
    this.decimal = decimal;
    this.context = width;
    this.mask = Words.mask(width);
  }

  /** Bits its result is computed in. */
  final int context() {
    return context;
  }

  /** Sets the bits its result is computed in; never fewer than its own. */
  final void size(int bits) {
    context = Math.max(bits, width);
    mask = Words.mask(context);
  }

  /**
   * Sizes an operand that stands for a number of places (an index, a shift, an exponent, a count).
   * The table makes it self-determined, and the standard gives plain decimals at least 32 bits;
   * ours are as wide as they need, so one that reaches its width is computed in 64 bits: the index
   * of {@code A[i + 1]} does not wrap.
   */
  final void sizeAsPlaces() {
    size(decimal ? Words.MAX_WIDTH : width);
  }

  /** Passes the context on to the operands, by the rules of this operator. */
  abstract void sizeOperands();

  /** Computes the register from the operands' registers. */
  abstract void step(Values in);

  final void known(long result) {
    value = result & mask;
    unknown = 0;
  }

  final void known(boolean result) {
    value = result ? 1 : 0;
    unknown = 0;
  }

  /** Every bit of the context x. */
  final void allUnknown() {
    value = 0;
    unknown = mask;
  }

  /** A one-bit x, with zeros before it whatever the context. */
  final void oneUnknown() {
    value = 0;
    unknown = 1;
  }

  /** Whether some bit is known to be 1. */
  final boolean isTrue() {
    return value != 0;
  }

  /** Whether every bit is known to be 0. */
  final boolean isFalse() {
    return (value | unknown) == 0;
  }
}
