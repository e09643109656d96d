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

  static FixtureState of(int code) {
    return code < UNKNOWN.ordinal() ? values()[code] : UNKNOWN;
  }
}
