package cardproof.sim.line;

/**
 * Stretches of time in which something is so, from when the bench was switched on.
 *
 * @param firstNs start of the first
 * @param lengthNs of each; {@link #FOR_GOOD} where the first never ends
 * @param everyNs from start to start, more than the length; 0 where there is only one
 */
record Spells(long firstNs, long lengthNs, long everyNs) {
  static final long FOR_GOOD = Long.MAX_VALUE;

  boolean includes(long ns) {
    return ns >= firstNs && (lengthNs == FOR_GOOD || ns - startNs(ns) < lengthNs);
  }

  /** When the spell that includes this time ends. */
  long endNs(long ns) {
    return startNs(ns) + lengthNs;
  }

  private long startNs(long ns) {
    return everyNs == 0 ? firstNs : ns - (ns - firstNs) % everyNs;
  }
}
