package cardproof.bits;

import java.util.List;
import java.util.Locale;

/** Cuts an expression into tokens, the longest symbol first. */
final class Lexer {
  /** Longer symbols stand before their own beginnings. */
  private static final List<String> LONG_SYMBOLS =
      List.of(
          "===", "!==", "<<<", ">>>", "**", "<<", ">>", "<=", ">=", "==", "!=", "&&", "||", "~&",
          "~|", "~^", "^~", "+:", "-:");

  private static final String SHORT_SYMBOLS = "+-*/%<>&|^~!?:(){}[],=";

  private final String text;
  private int at;

  Lexer(String text) {
    this.text = text;
  }

  Token next() {
    while (at < text.length() && Character.isWhitespace(text.charAt(at))) {
      at++;
    }
    if (at == text.length()) {
      return new Token(Token.Kind.END, "", at);
    }
    char first = text.charAt(at);
    if (isDigit(first)) {
      return take(Token.Kind.NUMBER, wordEnd(false));
    }
    if (isLetter(first)) {
      return take(Token.Kind.NAME, wordEnd(true));
    }
    for (String symbol : LONG_SYMBOLS) {
      if (text.startsWith(symbol, at)) {
        return take(Token.Kind.SYMBOL, at + symbol.length());
      }
    }
    if (SHORT_SYMBOLS.indexOf(first) >= 0) {
      return take(Token.Kind.SYMBOL, at + 1);
    }
    throw unreadable();
  }

  private Token take(Token.Kind kind, int end) {
    Token token = new Token(kind, text.substring(at, end), at);
    at = end;
    return token;
  }

  /** The end of a number, or of a name with its dots: {@code CI}, {@code hold.Q}. */
  private int wordEnd(boolean dots) {
    int end = at;
    while (end < text.length() && (isWord(end) || dots && isDot(end))) {
      end++;
    }
    return end;
  }

  private boolean isWord(int index) {
    char here = text.charAt(index);
    return isLetter(here) || isDigit(here) || here == '$';
  }

  private boolean isDot(int index) {
    return text.charAt(index) == '.' && index + 1 < text.length() && isWord(index + 1);
  }

  private static boolean isLetter(char here) {
    return here >= 'A' && here <= 'Z' || here >= 'a' && here <= 'z' || here == '_';
  }

  private static boolean isDigit(char here) {
    return here >= '0' && here <= '9';
  }

  private ExpressionException unreadable() {
    int character = text.codePointAt(at);
    if (character == '\'') {
      return new ExpressionException(
          text,
          at,
          "numbers with a size and a tick are not read here",
          "12, 0x1F, 0b1010_xx01 or 0o17",
          "Write 0xFFF for 12 bits of ones: such a number is as wide as its digits");
    }
    boolean plain = character > ' ' && character < 0x7F;
    return new ExpressionException(
        text,
        at,
        plain
            ? "'" + Character.toString(character) + "' has no meaning in an expression"
            : String.format(Locale.ROOT, "the character U+%04X has no meaning here", character),
        "names, numbers, operators and brackets",
        plain ? "" : "Write names and operators in plain ASCII");
  }
}
