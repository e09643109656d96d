package cardproof.bits;

/**
 * One bit from all bits of a self-determined operand: {@code & | ^}, their negations, and logical
 * {@code !}, which is the negated {@code |}.
 */
final class Reduction extends Node {
  enum Kind {
    AND,
    OR,
    XOR
  }

  private final Kind kind;
  private final boolean negated;
  private final Node operand;

  Reduction(Kind kind, boolean negated, Node operand) {
    super(1, operand.constant, false);
    this.kind = kind;
    this.negated = negated;
    this.operand = operand;
  }

  @Override
  void sizeOperands() {
    operand.size(operand.width);
  }

  @Override
  void step(Values in) {
    boolean zeroSeen = ((operand.value | operand.unknown) ^ operand.mask) != 0;
    boolean decided =
        switch (kind) {
          case AND -> zeroSeen;
          case OR -> operand.value != 0;
          case XOR -> false;
        };
    if (operand.unknown != 0 && !decided) {
      oneUnknown();
      return;
    }
    boolean result =
        switch (kind) {
          case AND -> !zeroSeen;
          case OR -> operand.value != 0;
          case XOR -> (Long.bitCount(operand.value) & 1) != 0;
        };
    known(result != negated);
  }
}
