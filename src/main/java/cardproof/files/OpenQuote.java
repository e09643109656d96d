package cardproof.files;

import cardproof.text.Position;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Finds a quote that somebody forgot to close. YAML runs on to the next quote, which may open
 * another value many lines below, and complains of what follows there, where nothing is wrong.
 */
final class OpenQuote {
  /** A key, and a value that neither quotes nor brackets nor anything else marks off. */
  private static final Pattern PLAIN_ENTRY =
      Pattern.compile("\\s*(?:- +)*(\\w[^:#]*):\\s+[^\\s\"'\\[{|>#&!*].*");

  /** Nobody writes a title of more lines; a file of nothing else must not take for ever. */
  private static final int LONGEST = 50;

  private static final Pattern ANY_ENTRY = Pattern.compile("\\s*(?:-\\s|[^:#]*:\\s|#)");

  private final SourceText source;
  private final List<String> lines;
  private int row;
  private int column;
  private int depth;

  private OpenQuote(SourceText source) {
    this.source = source;
    this.lines = source.lines();
  }

  /**
   * The first quote that is not closed on its line, and which either nothing closes, or something
   * behind which more text follows, as behind a quote that was meant to open.
   */
  static Optional<Position> in(SourceText source) {
    return new OpenQuote(source).find();
  }

  private Optional<Position> find() {
    while (row < lines.size()) {
      if (column >= lines.get(row).length() || comment()) {
        row++;
        column = 0;
        continue;
      }
      char here = lines.get(row).charAt(column);
      if ((here == '|' || here == '>') && skipText()) {
        continue;
      }
      if ((here == '"' || here == '\'') && beginsValue()) {
        int opened = row;
        Position at = place();
        boolean closed = close(here);
        if (!closed || row > opened && !ends()) {
          return Optional.of(at);
        }
        continue;
      }
      brackets(here);
      column++;
    }
    return Optional.empty();
  }

  /** Goes behind a text of several lines that begins here; false where none does. */
  private boolean skipText() {
    Optional<Integer> behind =
        depth == 0 && beginsValue() ? BlockText.behind(lines, row, column) : Optional.empty();
    behind.ifPresent(
        next -> {
          row = next;
          column = 0;
        });
    return behind.isPresent();
  }

  private Position place() {
    String line = lines.get(row);
    return new Position(source.name(), row + 1, line.codePointCount(0, column) + 1);
  }

  private boolean comment() {
    String line = lines.get(row);
    return line.charAt(column) == '#'
        && (column == 0 || Character.isWhitespace(line.charAt(column - 1)));
  }

  /** Whether a value may begin here: behind a sign that begins one, or at the line's start. */
  private boolean beginsValue() {
    String line = lines.get(row);
    int before = column - 1;
    while (before >= 0 && Character.isWhitespace(line.charAt(before))) {
      before--;
    }
    boolean blank = before < column - 1;
    if (before < 0) {
      return depth > 0 || !goesOn();
    }
    return switch (line.charAt(before)) {
      case ':' -> blank;
      case '-' -> blank && onlyDashes(line, before);
      case ',', '[', '{' -> depth > 0;
      default -> false;
    };
  }

  /** Whether the line is indented below a value without quotes, and so is more of it. */
  private boolean goesOn() {
    int indentation = indentation(lines.get(row));
    for (int above = row - 1; above >= Math.max(0, row - LONGEST); above--) {
      Matcher entry = PLAIN_ENTRY.matcher(lines.get(above));
      if (entry.matches()) {
        return indentation > entry.start(1);
      }
      boolean mayGoOn = lines.get(above).isBlank() || indentation(lines.get(above)) >= indentation;
      if (!mayGoOn || ANY_ENTRY.matcher(lines.get(above)).lookingAt()) {
        return false;
      }
    }
    return false;
  }

  private static int indentation(String line) {
    return line.length() - line.stripLeading().length();
  }

  private static boolean onlyDashes(String line, int last) {
    int at = last;
    while (at >= 0 && (line.charAt(at) == '-' || Character.isWhitespace(line.charAt(at)))) {
      at--;
    }
    return at < 0;
  }

  private void brackets(char here) {
    if ((here == '[' || here == '{') && (depth > 0 || beginsValue())) {
      depth++;
    } else if ((here == ']' || here == '}') && depth > 0) {
      depth--;
    }
  }

  /** Goes behind the quote that closes; false where none does. */
  private boolean close(char quote) {
    column++;
    while (row < lines.size()) {
      String line = lines.get(row);
      while (column < line.length()) {
        char here = line.charAt(column);
        boolean doubled = here == '\'' && line.startsWith("''", column);
        if (quote == '"' && here == '\\' || quote == '\'' && doubled) {
          column += 2;
        } else {
          column++;
          if (here == quote) {
            return true;
          }
        }
      }
      row++;
      column = 0;
    }
    return false;
  }

  /** Whether a value may end here: nothing follows in the line, or a sign that ends one. */
  private boolean ends() {
    String rest = lines.get(row).substring(column);
    String next = rest.strip();
    return next.isEmpty()
        || next.startsWith("#") && !rest.startsWith("#")
        || next.startsWith(":")
        || depth > 0 && ",]}".indexOf(next.charAt(0)) >= 0;
  }
}
