package cardproof.bits;

/**
 * One piece of an expression's text.
 *
 * @param offset of its first character, from 0
 */
record Token(Kind kind, String text, int offset) {
  enum Kind {
    NAME,
    NUMBER,
    SYMBOL,
    END
  }

  boolean is(String symbol) {
    return kind == Kind.SYMBOL && text.equals(symbol);
  }
}
