package cardproof.bits;

/** A number in an expression. */
final class Constant extends Node {
  private final Literal literal;

  Constant(Literal literal, boolean decimal) {
    super(literal.width(), true, decimal);
    this.literal = literal;
  }

  @Override
  void sizeOperands() {
    // has none
  }

  @Override
  void step(Values in) {
    value = literal.value();
    unknown = literal.unknown();
  }
}
