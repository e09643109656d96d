package cardproof.plan;

/** In what way a plan does not look at some lines or states. */
public enum GapKind {
  /** Watched, and nothing is ever expected of them. */
  NEVER_JUDGED,
  /** Never expected at 1, so that nothing tells them from a short to ground. */
  NEVER_EXPECTED_1,
  /** Never expected at 0, so that nothing tells them from a short to the supply. */
  NEVER_EXPECTED_0,
  /** Shared, and at 1 only when the fixture itself drives them to 1. */
  ONLY_FIXTURE_DRIVES_1,
  NEVER_DRIVEN_1,
  NEVER_DRIVEN_0,
  /** Bits of a state that are unknown from power-on to the end. */
  STATE_NEVER_KNOWN,
  /** Bits of a state that no vector sets: known from power-on and, after a failure, never again. */
  STATE_NEVER_ESTABLISHED,
  /** Judged in some vectors, and in others not. */
  SOMETIMES_JUDGED
}
