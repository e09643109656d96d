package cardproof.link;

/** What a fixture can do beyond the basic messages, in bit order; only ever appended. */
public enum Capability {
  /** The card is simulated: no real lines are switched. */
  SIMULATED,
  /** Drives 0 as well as 1; else source only. */
  PUSH_PULL,
  SEQUENCES,
  EDGE_CAPTURE,
  SUPPLY_SWITCH,
  SENSE,
  /** The {@code glitched} set is meaningful. */
  EDGE_LATCHES,
  ANALOGUE;

  public int bit() {
    return 1 << ordinal();
  }
}
