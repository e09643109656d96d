package cardproof.files;

import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Texts of several lines that begin with {@code |} or {@code >} (YAML 1.1, section 9.4): whatever
 * is indented below is text, quotes and brackets included.
 */
final class BlockText {
  /** Indentation and what becomes of line ends, in either order, and nothing else but a comment. */
  private static final Pattern HEADER =
      Pattern.compile("[|>](?:[+-]?([1-9])?|([1-9])[+-])\\s*(?:\\s#.*)?");

  /** What may stand before a key in its line: dashes of lists. */
  private static final Pattern DASHES = Pattern.compile("\\s*(?:-\\s+)*");

  private BlockText() {}

  /**
   * The row behind the text whose header stands at this place.
   *
   * @param column where a value may begin
   * @return empty where no header stands there
   */
  static Optional<Integer> behind(List<String> lines, int row, int column) {
    Matcher header = HEADER.matcher(lines.get(row).substring(column));
    if (!header.matches()) {
      return Optional.empty();
    }
    int around = around(lines.get(row), column);
    String given = header.group(1) == null ? header.group(2) : header.group(1);
    int least = given == null ? detected(lines, row + 1, around) : around + Integer.parseInt(given);
    int at = row + 1;
    while (at < lines.size() && belongs(lines.get(at), least)) {
      at++;
    }
    return Optional.of(at);
  }

  /** The indentation of the list or map that the text is an entry of. */
  private static int around(String line, int column) {
    Matcher dashes = DASHES.matcher(line);
    int key = dashes.lookingAt() ? dashes.end() : 0;
    if (key < column) {
      return key;
    }
    return Math.max(0, line.lastIndexOf('-', column)); // an item of a list, with no key
  }

  /** The first line that holds something says it. */
  private static int detected(List<String> lines, int first, int around) {
    return lines.stream()
        .skip(first)
        .filter(line -> !line.isBlank())
        .findFirst()
        .map(BlockText::indentation)
        .map(found -> Math.max(found, around + 1))
        .orElse(around + 1);
  }

  private static boolean belongs(String line, int least) {
    return line.isBlank() || indentation(line) >= least;
  }

  private static int indentation(String line) {
    int blanks = 0;
    while (blanks < line.length() && line.charAt(blanks) == ' ') {
      blanks++;
    }
    return blanks;
  }
}
