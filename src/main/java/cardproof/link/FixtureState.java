package cardproof.link;

/** States of a fixture, in code order; only ever appended. */
public enum FixtureState {
  SAFE,
  OPENED,
  READY,
  RUN,
  HELD,
  TRIPPED,
  UNKNOWN;

  /** Whether a step that is queued starts by itself. */
  boolean runsSteps() {
    return this == READY || this == RUN;
  }

  /**
   * @throws IllegalStateException for UNKNOWN, which stands for whatever a later version adds
   */
  int code() {
    if (this == UNKNOWN) {
      throw new IllegalStateException("an unknown code has no number");
    }
    return ordinal();
  }

  static FixtureState of(int code) {
    return code < UNKNOWN.ordinal() ? values()[code] : UNKNOWN;
  }
}
