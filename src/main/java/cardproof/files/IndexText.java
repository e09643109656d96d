package cardproof.files;

import cardproof.text.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A name with indices that a repeat gives their values: {@code C[i+1]}.
 *
 * @param base what stands before the first bracket
 * @param pieces in turn: indices, and further text between them
 */
record IndexText(Node.Text text, String base, List<Piece> pieces) {
  private static final long HIGHEST = 999_999;

  /** One index, or text that stands as it is. */
  record Piece(String literal, Optional<IndexExpression> index) {}

  /** What a name is for, and what it may be made of. */
  enum Use {
    NET(
        "a net",
        "[A-Za-z0-9+_.-]*[A-Za-z0-9][A-Za-z0-9+_.-]*",
        "letters, digits, '+', '-', '_' and '.', then an [index] if need be"),
    PART(
        "a part",
        "[A-Za-z][A-Za-z0-9_-]*",
        "a letter, then letters, digits, '_' and '-', then an [index] if need be");

    private final String words;
    private final String pattern;
    private final String wanted;

    Use(String words, String pattern, String wanted) {
      this.words = words;
      this.pattern = pattern;
      this.wanted = wanted;
    }

    boolean allows(String base) {
      return base.matches(pattern) && base.length() <= Texts.LONGEST_NAME;
    }
  }

  /**
   * @param repeats names of the repeats around it
   * @return empty, with a problem said, where it is no name
   */
  static Optional<IndexText> read(
      Node.Text written, Use use, List<String> repeats, Problems problems) {
    Node.Text text = written;
    String all = text.text();
    int from = 0;
    int open = all.indexOf('[');
    String base = (open < 0 ? all : all.substring(0, open)).strip();
    if (!use.allows(base)) {
      return refuse(text, use, problems);
    }
    List<Piece> pieces = new ArrayList<>();
    from = open < 0 ? all.length() : open;
    while (from < all.length()) {
      if (all.charAt(from) != '[') {
        // behind a bracket a net may go on, as in BIT[3].odd
        int next = all.indexOf('[', from) < 0 ? all.length() : all.indexOf('[', from);
        String more = all.substring(from, next).strip();
        boolean goesOn = use == Use.NET && more.startsWith(".") && use.allows(more);
        if (!goesOn && !more.isEmpty()) {
          return refuse(text, use, problems);
        }
        pieces.add(new Piece(more, Optional.empty()));
        from = next;
        continue;
      }
      int close = all.indexOf(']', from);
      if (close < 0) {
        problems.error(
            text.at(from), "the [ in " + text.described() + " is not closed", "a ']'", "");
        return Optional.empty();
      }
      Optional<IndexExpression> index = IndexParser.read(text, from + 1, close, repeats, problems);
      if (index.isEmpty()) {
        return Optional.empty();
      }
      pieces.add(new Piece("", index));
      from = close + 1;
    }
    return Optional.of(new IndexText(text, base, List.copyOf(pieces)));
  }

  private static Optional<IndexText> refuse(Node.Text text, Use use, Problems problems) {
    boolean plusOrMinus = use == Use.NET && text.text().strip().matches("[+_.-]+");
    problems.error(
        text.at(),
        text.described() + " cannot be the name of " + use.words,
        plusOrMinus ? use.wanted + ", a letter or a digit among them" : use.wanted,
        text.text().length() > Texts.LONGEST_NAME ? "At most 40 characters before the index" : "");
    return Optional.empty();
  }

  Position at() {
    return text.at();
  }

  boolean uses(String repeat) {
    return pieces.stream().flatMap(piece -> piece.index().stream()).anyMatch(i -> i.uses(repeat));
  }

  /**
   * What stands behind the base, spelled out: {@code [4]}.
   *
   * @throws IndexException where an index has no value, or none that could stand in a name
   */
  String suffix(RepeatValues values) {
    if (pieces.isEmpty()) {
      return "";
    }
    StringBuilder suffix = new StringBuilder();
    for (Piece piece : pieces) {
      if (piece.index().isEmpty()) {
        suffix.append(piece.literal());
        continue;
      }
      long index = piece.index().get().value(values);
      if (index < 0 || index > HIGHEST) {
        throw new IndexException("has the index " + index);
      }
      suffix.append('[').append(index).append(']');
    }
    return suffix.toString();
  }

  /** The whole name. */
  String name(RepeatValues values) {
    return base + suffix(values);
  }
}
