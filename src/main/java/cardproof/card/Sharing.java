package cardproof.card;

/** What it means when card and fixture drive a shared bus at once. */
public enum Sharing {
  /** One supply, drivers that only source: the lines read as the OR of all drivers. */
  WIRED_OR,
  /** A conflict: a plan that does it is refused. */
  EXCLUSIVE
}
