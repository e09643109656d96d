package cardproof.link;

/** Why a frame was refused, codes from 1; only ever appended. */
public enum NackReason {
  UNKNOWN,
  UNKNOWN_TYPE,
  BAD_LENGTH,
  WRONG_SESSION,
  WRONG_STATE,
  OUT_OF_ORDER,
  NO_SLOT_FREE,
  DRIVE_NOT_ALLOWED,
  BAD_FIELD;

  /**
   * @throws IllegalStateException for UNKNOWN, which stands for whatever a later version adds
   */
  int code() {
    if (this == UNKNOWN) {
      throw new IllegalStateException("an unknown code has no number");
    }
    return ordinal();
  }

  static NackReason of(int code) {
    return code > 0 && code < values().length ? values()[code] : UNKNOWN;
  }
}
