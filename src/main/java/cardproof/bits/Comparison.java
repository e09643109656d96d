package cardproof.bits;

/**
 * {@code < <= > >= == != === !==}: one bit, the operands as wide as the wider of the two.
 *
 * <p>Unknown bits, as IEEE 1364-2005 clauses 5.1.7 and 5.1.8 are read here: a relation ({@code <}
 * and its kin) with any x gives x; {@code ==} and {@code !=} give x only where ambiguous, so that a
 * known bit that differs decides them; {@code ===} and {@code !==} compare x as a state of its own
 * and are always known.
 */
final class Comparison extends Binary {
  enum Kind {
    LESS,
    LESS_OR_EQUAL,
    GREATER,
    GREATER_OR_EQUAL,
    EQUAL,
    UNEQUAL,
    SAME,
    DIFFERENT
  }

  private final Kind kind;

  Comparison(Kind kind, Node left, Node right) {
    super(1, left, right, false);
    this.kind = kind;
  }

  @Override
  void sizeOperands() {
    int bits = Math.max(left.width, right.width);
    left.size(bits);
    right.size(bits);
  }

  @Override
  void step(Values in) {
    switch (kind) {
      case SAME -> known(same());
      case DIFFERENT -> known(!same());
      case EQUAL, UNEQUAL -> equality();
      default -> relation();
    }
  }

  private boolean same() {
    return left.value == right.value && left.unknown == right.unknown;
  }

  private void equality() {
    long either = left.unknown | right.unknown;
    boolean differs = ((left.value ^ right.value) & ~either) != 0;
    if (!differs && either != 0) {
      oneUnknown();
    } else {
      known(differs == (kind == Kind.UNEQUAL));
    }
  }

  private void relation() {
    if ((left.unknown | right.unknown) != 0) {
      oneUnknown();
      return;
    }
    int order = Long.compareUnsigned(left.value, right.value);
    known(
        switch (kind) {
          case LESS -> order < 0;
          case LESS_OR_EQUAL -> order <= 0;
          case GREATER -> order > 0;
          default -> order >= 0;
        });
  }
}
