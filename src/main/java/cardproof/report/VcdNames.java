package cardproof.report;

import java.util.regex.Pattern;

/**
 * Names by the rules of the grammar: identifiers as IEEE 1364-2005, 3.7, has them, identifier codes
 * as syntax 18-5 has them.
 */
final class VcdNames {
  private static final Pattern SIMPLE = Pattern.compile("[A-Za-z_][A-Za-z0-9_$]*");
  private static final char FIRST = '!';
  private static final char LAST = '~';
  private static final int CODES = LAST - FIRST + 1;

  private VcdNames() {}

  /**
   * A simple identifier as it is; anything else escaped: a backslash before it, a blank (the
   * caller's) after it. Within it, what is no printable ASCII becomes {@code _}.
   */
  static String identifier(String name) {
    if (SIMPLE.matcher(name).matches()) {
      return name;
    }
    StringBuilder escaped = new StringBuilder("\\");
    name.chars().forEach(c -> escaped.append(c >= FIRST && c <= LAST ? (char) c : '_'));
    return escaped.toString();
  }

  /** The n-th code: one printable letter, then two, and so on; all differ. */
  static String code(int number) {
    StringBuilder code = new StringBuilder();
    int rest = number;
    do {
      code.append((char) (FIRST + rest % CODES));
      rest = rest / CODES - 1;
    } while (rest >= 0);
    return code.toString();
  }

  /**
   * Text for a command such as {@code $comment}: ASCII, on one line, and nothing in it reads as the
   * command's end.
   */
  static String commandText(String text) {
    StringBuilder ascii = new StringBuilder();
    text.chars().forEach(c -> ascii.append(c <= ' ' ? ' ' : c <= LAST ? (char) c : '?'));
    return ascii.toString().replace("$end", "$ end");
  }
}
