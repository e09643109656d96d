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

  static DropCause of(int code) {
    return code < UNKNOWN.ordinal() ? values()[code] : UNKNOWN;
  }
}
