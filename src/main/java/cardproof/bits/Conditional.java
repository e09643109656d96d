package cardproof.bits;

/**
 * {@code c ? a : b}. Where the condition is x, bits that are known and the same on both sides stay
 * known, all others are x (IEEE 1364-2005 table 5-21).
 */
final class Conditional extends Node {
  private final Node condition;
  private final Node then;
  private final Node otherwise;

  Conditional(Node condition, Node then, Node otherwise) {
    super(
        Math.max(then.width, otherwise.width),
        condition.constant && then.constant && otherwise.constant,
        then.decimal || otherwise.decimal);
    this.condition = condition;
    this.then = then;
    this.otherwise = otherwise;
  }

  @Override
  void sizeOperands() {
    condition.size(condition.width);
    then.size(context());
    otherwise.size(context());
  }

  @Override
  void step(Values in) {
    if (condition.isTrue()) {
      take(then);
    } else if (condition.isFalse()) {
      take(otherwise);
    } else {
      unknown = then.unknown | otherwise.unknown | then.value ^ otherwise.value;
      value = then.value & ~unknown;
    }
  }

  private void take(Node branch) {
    value = branch.value;
    unknown = branch.unknown;
  }
}
