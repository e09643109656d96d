package cardproof.files;

import cardproof.text.Nearest;
import java.util.List;
import java.util.Optional;

/**
 * Reads index arithmetic: {@code + - * / %} and parentheses over whole numbers and the names of a
 * repeat, with the precedence of school.
 */
final class IndexParser {
  private static final int DEEPEST = 40;
  private static final int MOST_DIGITS = 9;

  /** A slip, and where in the text. */
  private static final class Slip extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final int offset;
    private final transient String found;
    private final transient String wanted;
    private final transient String next;

    Slip(int offset, String found, String wanted, String next) {
      super(found, null, false, false);
      this.offset = offset;
      this.found = found;
      this.wanted = wanted;
      this.next = next;
    }
  }

  private final Node.Text text;
  private final int end;
  private final List<String> names;
  private int at;
  private int depth;

  private IndexParser(Node.Text text, int from, int end, List<String> names) {
    this.text = text;
    this.at = from;
    this.end = end;
    this.names = names;
  }

  /**
   * @param names of the repeats around it
   * @return empty, with a problem said, where the part of the text is no arithmetic
   */
  static Optional<IndexExpression> read(
      Node.Text text, int from, int end, List<String> names, Problems problems) {
    IndexParser parser = new IndexParser(text, from, end, names);
    try {
      IndexExpression expression = parser.sum();
      if (parser.peek() != 0) {
        throw parser.unexpected("an operator + - * / %, or the end of the index");
      }
      return Optional.of(expression);
    } catch (Slip slip) {
      problems.error(text.at(slip.offset), slip.found, slip.wanted, slip.next);
      return Optional.empty();
    }
  }

  private IndexExpression sum() {
    if (++depth > DEEPEST) {
      throw new Slip(at, "an index nested more than " + DEEPEST + " deep", "", "Write it simpler");
    }
    IndexExpression left = product();
    while (peek() == '+' || peek() == '-') {
      char sign = text.text().charAt(at++);
      left = new IndexExpression.Operation(sign, left, product());
    }
    depth--;
    return left;
  }

  private IndexExpression product() {
    IndexExpression left = factor();
    while (peek() == '*' || peek() == '/' || peek() == '%') {
      char sign = text.text().charAt(at++);
      left = new IndexExpression.Operation(sign, left, factor());
    }
    return left;
  }

  private IndexExpression factor() {
    char first = peek();
    if (first == '(') {
      at++;
      IndexExpression inside = sum();
      if (peek() != ')') {
        throw unexpected("a ')'");
      }
      at++;
      return inside;
    }
    if (first >= '0' && first <= '9') {
      return number();
    }
    if (Character.isLetter(first) || first == '_') {
      return name();
    }
    throw unexpected("a number, a name of a repeat or '('");
  }

  private IndexExpression number() {
    int start = at;
    while (at < end && Character.isDigit(text.text().charAt(at))) {
      at++;
    }
    String digits = text.text().substring(start, at);
    if (digits.length() > MOST_DIGITS) {
      throw new Slip(
          start, "the number " + digits + " in an index", "at most " + MOST_DIGITS + " digits", "");
    }
    return new IndexExpression.Number(Long.parseLong(digits));
  }

  private IndexExpression name() {
    int start = at;
    while (at < end
        && (Character.isLetterOrDigit(text.text().charAt(at)) || text.text().charAt(at) == '_')) {
      at++;
    }
    String name = text.text().substring(start, at);
    if (names.contains(name)) {
      return new IndexExpression.Name(name);
    }
    String next =
        names.isEmpty()
            ? "Give this entry a repeat, such as for: " + name + " = 0..11"
            : Nearest.hint(name, names);
    throw new Slip(
        start,
        "'" + name + "' in " + text.described() + " is no name of a repeat",
        names.isEmpty() ? "a number, since there is no repeat here" : "a number or a name of 'for'",
        next);
  }

  /** The next character that is no blank; 0 at the end. */
  private char peek() {
    while (at < end && text.text().charAt(at) == ' ') {
      at++;
    }
    return at < end ? text.text().charAt(at) : 0;
  }

  private Slip unexpected(String wanted) {
    char here = peek();
    return new Slip(
        at,
        here == 0
            ? "the index in " + text.described() + " is not complete"
            : "'" + here + "' in the index of " + text.described(),
        wanted,
        "");
  }
}
