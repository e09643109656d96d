package cardproof.files;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What was meant by a line such as {@code title: at rest: all} or {@code drive: A: 0, B: 1}: quotes
 * around a text, or braces around a map.
 */
final class SecondColon {
  private static final Pattern ENTRY =
      Pattern.compile("\\s*(?:- +)*([A-Za-z_][A-Za-z0-9_-]*)\\s*:\\s+(\\S.*?)(?:\\s+#.*)?\\s*");

  /** Blanks between names, for what counts as one bus in {@code each}. */
  private static final Pattern PART =
      Pattern.compile("([A-Za-z_][A-Za-z0-9_ -]*(?:\\[\\d+\\])?)\\s*:\\s+(\\S.*)");

  /** A value and the key and value behind it, with nothing between. */
  private static final Pattern TWO_PARTS =
      Pattern.compile("([^?:]*[^?:\\s])\\s+([A-Za-z_][A-Za-z0-9_-]*)\\s*:\\s+([^?:]+)");

  /** Keys that take a text to read. */
  private static final Set<String> TEXTS =
      Set.of("title", "plan", "card", "fixture", "procedures-of", "test");

  /** Keys that take a map which is mostly written in one line. */
  private static final Set<String> MAPS =
      Set.of(
          "drive",
          "each",
          "expect",
          "pulse",
          "with",
          "table",
          "march",
          "limits",
          "relays",
          "supply",
          "arguments",
          "set",
          "labels",
          "drives",
          "watches");

  /** Keys in the map that describes a bus, a state or what a bus goes through. */
  private static final Set<String> OF_A_NAME =
      Set.of(
          "width",
          "at",
          "labels",
          "settle",
          "sharing",
          "power-on",
          "next",
          "random",
          "seed",
          "list",
          "range",
          "by");

  /** A longer line is no slip that could be shown whole. */
  private static final int LONGEST = 300;

  private SecondColon() {}

  /** Advice, where the line's key tells what was meant. */
  static Optional<String> meant(String line) {
    Matcher entry = ENTRY.matcher(line);
    if (line.length() > LONGEST || !entry.matches() || entry.group(2).matches("[\"'{\\[].*")) {
      return Optional.empty();
    }
    String key = entry.group(1);
    String value = entry.group(2);
    if (TEXTS.contains(key)) {
      return Optional.of(quote(entry));
    }
    return map(key, value)
        .map(written -> "A map in one line needs braces: write " + key + ": {" + written + "}");
  }

  /** Advice for an item of a map in braces, such as {@code A: 0 B: 1}, where its key tells. */
  static Optional<String> meantInBraces(String item) {
    Matcher entry = ENTRY.matcher(item);
    if (item.length() > LONGEST || !entry.matches()) {
      return Optional.empty();
    }
    if (TEXTS.contains(entry.group(1)) && !entry.group(2).matches("[\"'].*")) {
      return Optional.of(quote(entry));
    }
    Matcher two = TWO_PARTS.matcher(entry.group(2));
    return two.matches()
        ? Optional.of(
            "A comma is missing: write "
                + String.format("%s: %s, %s: ", entry.group(1), two.group(1), two.group(2))
                + two.group(3))
        : Optional.empty();
  }

  private static String quote(Matcher entry) {
    return "A text that holds ': ' must be quoted: write "
        + entry.group(1)
        + ": "
        + QuoteHint.quoted(entry.group(2));
  }

  private static Optional<String> map(String key, String value) {
    List<String> parts = new ArrayList<>();
    for (String part : parts(value)) {
      Matcher one = PART.matcher(part);
      boolean fits =
          one.matches() && (MAPS.contains(key) || OF_A_NAME.contains(one.group(1).strip()));
      if (!fits) {
        return Optional.empty();
      }
      parts.add(QuoteHint.asKey(one.group(1)) + ": " + QuoteHint.asValue(one.group(2)));
    }
    return Optional.of(String.join(", ", parts));
  }

  /** What commas part, outside brackets and quotes. */
  private static List<String> parts(String value) {
    List<String> parts = new ArrayList<>();
    int depth = 0;
    int start = 0;
    boolean quoted = false;
    for (int at = 0; at < value.length(); at++) {
      char here = value.charAt(at);
      quoted ^= here == '"';
      if (here == ',' && depth == 0 && !quoted) {
        parts.add(value.substring(start, at).strip());
        start = at + 1;
      } else if (!quoted) {
        depth += "[{(".indexOf(here) >= 0 ? 1 : "]})".indexOf(here) >= 0 ? -1 : 0;
      }
    }
    parts.add(value.substring(start).strip());
    return parts;
  }
}
