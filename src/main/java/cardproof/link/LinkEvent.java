package cardproof.link;

/** What waiting on a link ended with. */
public sealed interface LinkEvent {
  /** The whole result of the next step, in order; each step's once; with its edges, if any. */
  record ResultArrived(Result result, KeptEdges edges) implements LinkEvent {}

  /**
   * The session is over: STOP, a trip, silence, or a new boot. Comes after every result that could
   * still be had; a step without one either never ran or (new boot) ran without a witness. Comes
   * again at each later wait.
   *
   * @param status with a boot other than that of the session when the fixture was reset
   */
  record Dropped(Status status) implements LinkEvent {}

  /** A gated step missed, and its result was handed out; comes once for each such step. */
  record Held(Status status) implements LinkEvent {}

  /** The deadline passed first. */
  record Idle() implements LinkEvent {}
}
