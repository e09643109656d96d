package cardproof.files;

/**
 * Whole-number arithmetic over the names of a repeat. Division goes down and the remainder is never
 * negative for a positive divisor, so that {@code (i - 1) % 12} runs round in a ring.
 */
sealed interface IndexExpression {
  /**
   * @throws IndexException where it has none
   */
  long value(RepeatValues values);

  /** Whether its value hangs on a name. */
  boolean uses(String name);

  record Number(long value) implements IndexExpression {
    @Override
    public long value(RepeatValues values) {
      return value;
    }

    @Override
    public boolean uses(String name) {
      return false;
    }
  }

  record Name(String name) implements IndexExpression {
    @Override
    public long value(RepeatValues values) {
      return values.value(name);
    }

    @Override
    public boolean uses(String other) {
      return name.equals(other);
    }
  }

  record Operation(char sign, IndexExpression left, IndexExpression right)
      implements IndexExpression {
    @Override
    public long value(RepeatValues values) {
      long a = left.value(values);
      long b = right.value(values);
      if ((sign == '/' || sign == '%') && b == 0) {
        throw new IndexException("divides by zero");
      }
      try {
        return switch (sign) {
          case '+' -> Math.addExact(a, b);
          case '-' -> Math.subtractExact(a, b);
          case '*' -> Math.multiplyExact(a, b);
          case '/' -> Math.floorDiv(a, b);
          default -> Math.floorMod(a, b);
        };
      } catch (ArithmeticException tooLarge) {
        throw new IndexException("comes to a number beyond all bounds");
      }
    }

    @Override
    public boolean uses(String name) {
      return left.uses(name) || right.uses(name);
    }
  }
}
