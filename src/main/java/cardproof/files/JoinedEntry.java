package cardproof.files;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Takes apart what stands in a map as a key without a value, and was meant to be both: {@code EN:0}
 * without a blank, or {@code EN 0} without a colon. Says so, and gives the entry that was meant, so
 * that nothing else is complained of.
 */
final class JoinedEntry {
  private static final String NAME = "([A-Za-z_][A-Za-z0-9_-]*(?:\\[\\d+\\])?)";
  private static final Pattern NO_BLANK = Pattern.compile(NAME + ":(\\S.*)");
  private static final Pattern NO_COLON = Pattern.compile(NAME + "\\s+(\\S.*)");

  /** {@code A B} is two buses that go together, and lacks a value. */
  private static final Pattern NAMES = Pattern.compile(NAME + "(\\s+" + NAME + ")*");

  /** Nobody mistypes more than this; the patterns must not run deep. */
  private static final int LONGEST = 200;

  private final Problems problems;

  JoinedEntry(Problems problems) {
    this.problems = problems;
  }

  /**
   * @param key behind which neither a colon nor a value stands
   */
  Optional<Node.Entry> parted(Node.Text key) {
    if (key.quoted() || key.text().length() > LONGEST) {
      return Optional.empty();
    }
    Matcher noBlank = NO_BLANK.matcher(key.text());
    if (noBlank.matches()) {
      return Optional.of(said(key, noBlank, "a blank is missing after ':' in " + key.described()));
    }
    Matcher noColon = NO_COLON.matcher(key.text());
    boolean value =
        noColon.matches()
            && (!NAMES.matcher(noColon.group(2)).matches()
                || Reserved.contains(noColon.group(2))
                || QuoteHint.isStructure(noColon.group(1)));
    return value
        ? Optional.of(said(key, noColon, "the ':' is missing in " + key.described()))
        : Optional.empty();
  }

  private Node.Entry said(Node.Text key, Matcher parts, String found) {
    problems.error(
        key.at(),
        found,
        "a key, a colon, a blank and a value",
        "Write " + parts.group(1) + ": " + parts.group(2));
    return new Node.Entry(
        key.written(parts.group(1)),
        new Node.Text(key.at(parts.start(2)), parts.group(2), false, parts.group(2), false),
        false);
  }
}
