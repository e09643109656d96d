package cardproof.card.wiring.review;

import cardproof.text.Problem;

/** One thing that is, or may be, wrong with a wiring. */
public record Finding(Kind kind, Problem problem) {
  public Severity severity() {
    return kind.severity();
  }

  public boolean isError() {
    return severity() == Severity.ERROR;
  }
}
