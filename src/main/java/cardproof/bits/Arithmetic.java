package cardproof.bits;

/** {@code + - * / %}: modulo 2 to the context's width; an x or a division by zero gives all x. */
final class Arithmetic extends Binary {
  enum Kind {
    ADD,
    SUBTRACT,
    MULTIPLY,
    DIVIDE,
    REMAINDER
  }

  private final Kind kind;

  Arithmetic(Kind kind, Node left, Node right) {
    super(left, right);
    this.kind = kind;
  }

  @Override
  void step(Values in) {
    boolean divides = kind == Kind.DIVIDE || kind == Kind.REMAINDER;
    if ((left.unknown | right.unknown) != 0 || divides && right.value == 0) {
      allUnknown();
      return;
    }
    long a = left.value;
    long b = right.value;
    known(
        switch (kind) {
          case ADD -> a + b;
          case SUBTRACT -> a - b;
          case MULTIPLY -> a * b;
          case DIVIDE -> Long.divideUnsigned(a, b);
          case REMAINDER -> Long.remainderUnsigned(a, b);
        });
  }
}
