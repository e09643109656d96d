package cardproof.bits;

import java.util.List;

/** As much of a user's text as one message can carry, on one line. */
final class Excerpt {
  private static final int MAX_CHARS = 60;
  private static final int MAX_NAMES = 8;

  private Excerpt() {}

  /** The beginning of a text. */
  static String of(String text) {
    return around(text, 0);
  }

  /** The part of a text in which {@code offset} lies. */
  static String around(String text, int offset) {
    int start = Math.max(0, Math.min(offset - MAX_CHARS / 2, text.length() - MAX_CHARS));
    int end = Math.min(text.length(), start + MAX_CHARS);
    String part = text.substring(start, end).replaceAll("\\p{Cntrl}", " ");
    return (start > 0 ? "..." : "") + part + (end < text.length() ? "..." : "");
  }

  /** {@code one of A, B, CI}; long lists end in how many more there are. */
  static String names(List<String> names) {
    String first = String.join(", ", names.subList(0, Math.min(MAX_NAMES, names.size())));
    int more = names.size() - MAX_NAMES;
    return "one of " + first + (more > 0 ? " and " + more + " more" : "");
  }
}
