package cardproof.bits;

import cardproof.text.Problem;

/** A number that cannot be read; the message is one clear sentence or two. */
public final class LiteralException extends IllegalArgumentException {
  private static final long serialVersionUID = 1L;

  private final String found;
  private final String wanted;
  private final String next;

  LiteralException(String text, String found, String wanted, String next) {
    super(new Problem("number '" + Excerpt.of(text) + "'", found, wanted, next).toString());
    this.found = found;
    this.wanted = wanted;
    this.next = next;
  }

  /** What is wrong with it. */
  public String found() {
    return found;
  }

  /** What a number may look like; empty when {@link #found()} says it all. */
  public String wanted() {
    return wanted;
  }

  /** What to write instead; empty when that is plain. */
  public String next() {
    return next;
  }
}
