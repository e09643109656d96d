package cardproof.link;

/** Why the drives last went down, in code order; only ever appended. */
public enum DropCause {
  NEVER_LIVE,
  STOP,
  SILENCE,
  CHATTER,
  HOLD_LIMIT,
  SUPPLY,
  OPEN,
  UNKNOWN;

  /**
   * @throws IllegalStateException for UNKNOWN, which stands for whatever a later version adds
   */
  int code() {
    if (this == UNKNOWN) {
      throw new IllegalStateException("an unknown code has no number");
    }
    return ordinal();
  }

  static DropCause of(int code) {
    return code < UNKNOWN.ordinal() ? values()[code] : UNKNOWN;
  }
}
