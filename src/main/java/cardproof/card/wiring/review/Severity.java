package cardproof.card.wiring.review;

/** How much a finding weighs. */
public enum Severity {
  /** The card cannot work as wired, or something would burn. */
  ERROR,
  /** It may be meant. */
  WARNING
}
