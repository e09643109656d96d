package cardproof.link;

/** The host's half of section 7 of {@code firmware-notes/protocol.md}, in nanoseconds. */
final class LinkTimes {
  private static final long MS = 1_000_000;

  /** A request is repeated after this. */
  static final long REQUEST_NS = 100 * MS;

  /** How often a request is sent before the link counts as lost. */
  static final int REQUEST_TRIES = 10;

  /**
   * The same while a run goes on, where other frames show that the link is not lost: on a line that
   * spoils every third exchange, ten in a row fail once in a long run.
   */
  static final int RUNNING_TRIES = 20;

  /** What is late by this much was lost on its way. */
  static final long BEHIND_NS = 50 * MS;

  /** Short enough that a line which spoils every fifth frame is never taken for silent. */
  static final long BEAT_NS = 125 * MS;

  /** With the silence time after it, how long the drives outlive a program that is stuck. */
  static final long LEASE_NS = 400 * MS;

  /** Several times within a lease. */
  static final long RENEW_NS = 100 * MS;

  /** Beyond the end of its watching, a step that has not ended is hung. */
  static final long HUNG_NS = 500 * MS;

  /** The same where the fixture's clock cannot tell how long the step has run. */
  static final long STILL_NS = 5000 * MS;

  /** No valid frame for this long although answers were due: the link is lost. */
  static final long LOST_NS = 1500 * MS;

  private LinkTimes() {}

  static long ofMs(long ms) {
    return ms * MS;
  }

  static long ofUs(long us) {
    return us * 1000;
  }

  static long toMs(long ns) {
    return ns / MS;
  }
}
