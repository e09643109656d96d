package cardproof.link;

import java.util.Optional;

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

  /** The capability that a fixture needs for frames of this type; empty for those of all. */
  public static Optional<Capability> neededFor(int type) {
    return switch (type & 0x7F) {
      case 0x10, 0x11, 0x12, 0x13 -> Optional.of(SEQUENCES);
      case 0x14, 0x15, 0x16, 0x17 -> Optional.of(EDGE_CAPTURE);
      case 0x18 -> Optional.of(SUPPLY_SWITCH);
      case 0x19 -> Optional.of(SENSE);
      case 0x1A -> Optional.of(ANALOGUE);
      default -> Optional.empty();
    };
  }

  public int bit() {
    return 1 << ordinal();
  }
}
