package cardproof.bits;

/**
 * {@code & | ^ ~^} bit by bit (IEEE 1364-2005 tables 5-14 to 5-17): a deciding bit outweighs an x.
 */
final class Bitwise extends Binary {
  enum Kind {
    AND,
    OR,
    XOR,
    XNOR
  }

  private final Kind kind;

  Bitwise(Kind kind, Node left, Node right) {
    super(left, right);
    this.kind = kind;
  }

  @Override
  void step(Values in) {
    long a = left.value;
    long b = right.value;
    long either = left.unknown | right.unknown;
    switch (kind) {
      case AND -> {
        value = a & b;
        unknown = either & (a | left.unknown) & (b | right.unknown);
      }
      case OR -> {
        value = a | b;
        unknown = either & ~value;
      }
      case XOR -> {
        value = (a ^ b) & ~either;
        unknown = either;
      }
      case XNOR -> {
        value = ~(a ^ b) & ~either & mask;
        unknown = either;
      }
    }
  }
}
