package cardproof.bits;

import cardproof.text.Problem;

/** An expression that cannot be used: where in its text, and the facts a user needs to mend it. */
public final class ExpressionException extends IllegalArgumentException {
  private static final long serialVersionUID = 1L;

  private final int offset;
  private final String found;
  private final String wanted;
  private final String next;

  ExpressionException(String text, int offset, String found, String wanted, String next) {
    super(message(text, offset, found, wanted, next));
    this.offset = offset;
    this.found = found;
    this.wanted = wanted;
    this.next = next;
  }

  private static String message(String text, int offset, String found, String wanted, String next) {
    String where = "character " + (offset + 1) + " of '" + Excerpt.around(text, offset) + "'";
    return new Problem(where, found, wanted, next).toString();
  }

  /**
   * The character it is about, counted from 0; the length of the text when something is missing.
   */
  public int offset() {
    return offset;
  }

  /** What is there. */
  public String found() {
    return found;
  }

  /** What was expected instead; empty when {@link #found()} says it all. */
  public String wanted() {
    return wanted;
  }

  /** What to do about it; empty when that is plain. */
  public String next() {
    return next;
  }
}
