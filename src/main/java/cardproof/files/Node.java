package cardproof.files;

import cardproof.text.Position;
import java.util.List;

/** Part of a file as it is written: a text, a list or a map. */
sealed interface Node {
  Position at();

  /** The very characters of the file. */
  String raw();

  /** Whether it has a YAML anchor ({@code &name}) before it. */
  boolean anchored();

  /** What it is, in words for a message. */
  String described();

  /** {@code 'width' is 'four'}, or that it has no value. */
  default String saidOf(String key) {
    boolean nothing = this instanceof Text text && text.text().isBlank();
    return "'" + key + "' " + (nothing ? "has no value" : "is " + described());
  }

  /**
   * A scalar: no type yet, whatever it looks like.
   *
   * @param quoted whether it stands in single or double quotes
   */
  record Text(Position at, String raw, boolean anchored, String text, boolean quoted)
      implements Node {
    private static final int SHOWN = 60;

    @Override
    public String described() {
      return text.isEmpty() ? "nothing" : Text.quote(text);
    }

    /** The same place with another text. */
    Text written(String other) {
      return new Text(at, raw, anchored, other, quoted);
    }

    /** In single quotes, shortened where it is long, on one line. */
    static String quote(String text) {
      String line = text.replaceAll("\\p{Cntrl}", " ");
      boolean fits = line.codePointCount(0, line.length()) <= SHOWN;
      String shown = fits ? line : line.substring(0, line.offsetByCodePoints(0, SHOWN)) + " ...";
      return "'" + shown + "'";
    }

    /**
     * The place of one of its characters, where it is written on one line without escapes; else its
     * own place.
     */
    Position at(int offset) {
      String before = text.substring(0, Math.min(offset, text.length()));
      int skipped = quoted ? 1 : 0;
      boolean plain = before.indexOf('\n') < 0 && raw.startsWith(before, skipped);
      return plain
          ? new Position(
              at.file(),
              at.line(),
              at.column() + skipped + before.codePointCount(0, before.length()))
          : at;
    }
  }

  /** Nodes in order. */
  record Listing(Position at, String raw, boolean anchored, List<Node> items) implements Node {
    @Override
    public String described() {
      return "a list";
    }
  }

  /** Keys with their values, in the order written; every key once. */
  record Mapping(Position at, String raw, boolean anchored, List<Entry> entries) implements Node {
    @Override
    public String described() {
      return "a map of keys and values";
    }
  }

  /**
   * A key with its value.
   *
   * @param alias whether the value is written as {@code *name} and stands elsewhere
   */
  record Entry(Text key, Node value, boolean alias) {}
}
