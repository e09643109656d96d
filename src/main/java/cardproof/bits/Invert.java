package cardproof.bits;

/** Bitwise negation {@code ~}; an x stays x. */
final class Invert extends Node {
  private final Node operand;

  Invert(Node operand) {
    super(operand.width, operand.constant, operand.decimal);
    this.operand = operand;
  }

  @Override
  void sizeOperands() {
    operand.size(context());
  }

  @Override
  void step(Values in) {
    unknown = operand.unknown;
    value = ~operand.value & ~unknown & mask;
  }
}
