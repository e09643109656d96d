package cardproof.bits;

/** An operator between two operands that both take part in its width. */
abstract class Binary extends Node {
  final Node left;
  final Node right;

  /** As wide as the wider operand, both computed in the width of the context. */
  Binary(Node left, Node right) {
    this(Math.max(left.width, right.width), left, right, left.decimal || right.decimal);
  }

  Binary(int width, Node left, Node right, boolean decimal) {
    super(width, left.constant && right.constant, decimal);
    this.left = left;
    this.right = right;
  }

  @Override
  void sizeOperands() {
    left.size(context());
    right.size(context());
  }
}
