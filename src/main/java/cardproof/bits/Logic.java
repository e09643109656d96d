package cardproof.bits;

/**
 * {@code && ||} on truth values: an operand is true with a known 1 in it, false when all its bits
 * are known 0, and else x.
 */
final class Logic extends Binary {
  private final boolean and;

  private Logic(boolean and, Node left, Node right) {
    super(1, left, right, false);
    this.and = and;
  }

  static Logic and(Node left, Node right) {
    return new Logic(true, left, right);
  }

  static Logic or(Node left, Node right) {
    return new Logic(false, left, right);
  }

  @Override
  void sizeOperands() {
    left.size(left.width);
    right.size(right.width);
  }

  @Override
  void step(Values in) {
    boolean someTrue = left.isTrue() || right.isTrue();
    boolean someFalse = left.isFalse() || right.isFalse();
    if (and ? someFalse : someTrue) {
      known(!and);
    } else if (and ? left.isTrue() && right.isTrue() : left.isFalse() && right.isFalse()) {
      known(and);
    } else {
      oneUnknown();
    }
  }
}
