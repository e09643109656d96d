package cardproof.files;

import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Tells a user which text to put in quotes, so that YAML leaves it alone. */
final class QuoteHint {
  static final String RULE =
      "An expression that holds ': ' or starts with one of { [ ! & * | > % @ ` must be quoted";

  private static final Pattern ENTRY =
      Pattern.compile("\\s*(?:- +)*([A-Za-z_][A-Za-z0-9_-]*)\\s*:\\s+(\\S.*?)(?:\\s+#.*)?\\s*");

  /** A line of a bus may be told by its colon alone; elsewhere a blank belongs behind that. */
  private static final Pattern INSIDE =
      Pattern.compile("(.*?:(?=\\s)|[A-Za-z_]\\w*\\[\\d+\\]:)\\s*(\\S.*)");

  /** Keys whose value is never an expression. */
  private static final Set<String> STRUCTURE =
      Set.of(
          "card",
          "title",
          "supply",
          "inputs",
          "outputs",
          "shared",
          "state",
          "behaviour",
          "limits",
          "relays",
          "plan",
          "steps",
          "drive",
          "release",
          "each",
          "table",
          "rows",
          "pulse",
          "expect",
          "still",
          "settle",
          "quiet",
          "watch",
          "hold",
          "repeat",
          "fixture",
          "kind",
          "drives",
          "watches",
          "at",
          "labels",
          "list",
          "include",
          "set",
          "procedures",
          "arguments",
          "call",
          "with",
          "tags",
          "sync",
          "voltage",
          "limit",
          "wiring",
          "ground",
          "common",
          "blocks",
          "parts",
          "poles",
          "ports",
          "coil",
          "ends",
          "netlist",
          "kinds",
          "types");

  /** Keys whose value is a list of names, which may also be one text with commas. */
  private static final Set<String> LISTS = Set.of("ends", "coil", "common", "ports");

  private QuoteHint() {}

  static boolean isStructure(String key) {
    return STRUCTURE.contains(key);
  }

  /** For a line {@code KEY: VALUE} that YAML could not read. */
  static String forLine(String line) {
    Matcher entry = ENTRY.matcher(line);
    if (entry.matches() && !STRUCTURE.contains(entry.group(1))) {
      return forValue(entry.group(1), entry.group(2));
    }
    return RULE + ", as in S: \"LD ? D : Q\"";
  }

  static String forValue(String key, String raw) {
    boolean oneLine = !raw.isEmpty() && raw.length() <= 80 && raw.indexOf('\n') < 0;
    return RULE + (oneLine ? ": write " + key + ": " + quoted(raw) : "");
  }

  /** For a bracket at this column where no bracket can stand. */
  static String bracket(String line, int column) {
    Matcher entry = ENTRY.matcher(line);
    if (entry.matches() && LISTS.contains(entry.group(1)) && entry.group(2).matches("\\[.*\\]")) {
      String names = entry.group(2).substring(1, entry.group(2).length() - 1).strip();
      return "Write it without the outer brackets, "
          + entry.group(1)
          + ": "
          + names
          + ", or put quotes round each name that has brackets";
    }
    boolean expression =
        entry.matches()
            && !STRUCTURE.contains(entry.group(1))
            && !entry.group(2).contains(": ")
            && entry.group(2).matches("[{\\[].*");
    return expression ? forValue(entry.group(1), entry.group(2)) : inside(line, column);
  }

  /** For an item of {@code [ ]} or {@code { }} that holds a bracket at this column of the line. */
  private static String inside(String line, int column) {
    String item = item(line, column);
    Matcher entry = INSIDE.matcher(item);
    String written =
        entry.matches()
            ? asKey(entry.group(1).replaceFirst(":$", "")) + ": " + asValue(entry.group(2))
            : quoted(item);
    return "Inside { } and [ ] whatever holds [ ] { } or ? must be quoted: write " + written;
  }

  /** What stands between commas or brackets around this column. */
  static String item(String line, int column) {
    int start = Math.max(lastOf(line, column), 0);
    return line.substring(start, itemEnd(line, start)).strip();
  }

  /** A key for a map in braces. */
  static String asKey(String key) {
    return key.strip().matches("[^\\[\\]{}?]*") ? key.strip() : quoted(key.strip());
  }

  /** A value for a map in braces, in quotes where YAML would take it for something else. */
  static String asValue(String value) {
    boolean whole = value.matches("\\[[^\\[\\]{}]*\\]|\\{[^\\[\\]{}]*\\}|\".*\"|'.*'");
    boolean free = !value.matches(".*([\\[\\]{}?]|: ).*") && !value.matches("[!&*|>%@`].*");
    return whole || free ? value : quoted(value);
  }

  private static int lastOf(String line, int column) {
    for (int at = Math.min(column, line.length()) - 1; at >= 0; at--) {
      if ("{[,".indexOf(line.charAt(at)) >= 0) {
        return at + 1;
      }
    }
    return 0;
  }

  private static int itemEnd(String line, int start) {
    int depth = 0;
    for (int at = start; at < line.length(); at++) {
      char here = line.charAt(at);
      if (here == '[' || here == '{') {
        depth++;
      } else if ((here == ',' && depth == 0) || ((here == ']' || here == '}') && depth-- == 0)) {
        return at;
      }
    }
    return line.length();
  }

  /**
   * For a line with a value whose quote is open: the value closed, where the line holds only one.
   */
  static String closed(String line) {
    Matcher entry = ENTRY.matcher(line);
    boolean one = entry.matches() && entry.group(2).matches("[\"'].*");
    char quote = one ? entry.group(2).charAt(0) : ' ';
    return one && entry.group(2).indexOf(quote, 1) < 0
        ? "Write " + entry.group(1) + ": " + entry.group(2) + quote
        : "";
  }

  static String quoted(String raw) {
    boolean free = raw.indexOf('"') < 0 && raw.indexOf('\\') < 0;
    return free ? '"' + raw + '"' : "'" + raw.replace("'", "''") + "'";
  }
}
