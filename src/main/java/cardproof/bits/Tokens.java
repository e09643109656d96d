package cardproof.bits;

/** The tokens of one expression, read one ahead, and the refusals that point into its text. */
final class Tokens {
  private final String text;
  private final Lexer lexer;
  private Token here;

  Tokens(String text) {
    this.text = text;
    this.lexer = new Lexer(text);
    this.here = lexer.next();
  }

  /** The token to be read next. */
  Token here() {
    return here;
  }

  /** Reads a token. */
  Token advance() {
    Token before = here;
    here = lexer.next();
    return before;
  }

  /** Reads a symbol if it stands here. */
  boolean accept(String symbol) {
    boolean there = here.is(symbol);
    if (there) {
      advance();
    }
    return there;
  }

  /** Reads a symbol that must stand here. */
  void expect(String symbol, String why) {
    if (!accept(symbol)) {
      throw refuse(here, described(here) + " here", "'" + symbol + "' " + why, "");
    }
  }

  /** How a message speaks of a token, as the subject of its sentence. */
  static String described(Token token) {
    return token.kind() == Token.Kind.END
        ? "the text ends"
        : "'" + Excerpt.of(token.text()) + "' stands";
  }

  ExpressionException refuse(Token at, String found, String wanted, String next) {
    return new ExpressionException(text, at.offset(), found, wanted, next);
  }
}
