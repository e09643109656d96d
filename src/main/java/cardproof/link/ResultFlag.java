package cardproof.link;

/** Flag bits of RESULT, in bit order. */
public enum ResultFlag {
  QUIET,
  MATCHED,
  EARLY,
  MISSED,
  TRIPPED,
  STOPPED,
  DWELL_SAMPLED;

  public int bit() {
    return 1 << ordinal();
  }
}
