package cardproof.bits;

/** Unary plus and minus; one x makes every bit x, as for all arithmetic. */
final class Sign extends Node {
  private final boolean minus;
  private final Node operand;

  private Sign(boolean minus, Node operand) {
    super(operand.width, operand.constant, operand.decimal);
    this.minus = minus;
    this.operand = operand;
  }

  static Sign plus(Node operand) {
    return new Sign(false, operand);
  }

  static Sign minus(Node operand) {
    return new Sign(true, operand);
  }

  @Override
  void sizeOperands() {
    operand.size(context());
  }

  @Override
  void step(Values in) {
    if (operand.unknown != 0) {
      allUnknown();
    } else {
      known(minus ? -operand.value : operand.value);
    }
  }
}
