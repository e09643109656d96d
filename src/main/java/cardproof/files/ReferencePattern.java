package cardproof.files;

import java.util.List;

/** References with {@code *} for any signs, none among them. */
record ReferencePattern(String written, List<String> pieces) {
  static ReferencePattern of(String written) {
    return new ReferencePattern(written, List.of(written.split("\\*", -1)));
  }

  /** Signs that are not {@code *}; more than any for a reference written out. */
  int own() {
    return pieces.size() == 1 ? Integer.MAX_VALUE : written.length() - pieces.size() + 1;
  }

  boolean fits(String reference) {
    if (pieces.size() == 1) {
      return reference.equals(written);
    }
    String first = pieces.get(0);
    String last = pieces.get(pieces.size() - 1);
    if (reference.length() < first.length() + last.length()
        || !reference.startsWith(first)
        || !reference.endsWith(last)) {
      return false;
    }
    // taking each piece as early as it comes leaves the most for those behind it
    int at = first.length();
    int end = reference.length() - last.length();
    for (String piece : pieces.subList(1, pieces.size() - 1)) {
      int found = reference.indexOf(piece, at);
      if (found < 0 || found + piece.length() > end) {
        return false;
      }
      at = found + piece.length();
    }
    return true;
  }
}
