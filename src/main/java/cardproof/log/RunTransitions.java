package cardproof.log;

/**
 * The transitions of the vectors of one run. Vectors with the same name here went from the same
 * drive and the same seen state to the same drive; names are the same in every log.
 */
public final class RunTransitions {
  /** The name of a transition that is not known. */
  public static final long UNKNOWN = 0;

  private final long first;
  private final long[] names;

  /**
   * @param first number of the vector that {@code names[0]} belongs to
   */
  RunTransitions(long first, long[] names) {
    this.first = first;
    this.names = names;
  }

  /** Number of the first vector. */
  public long first() {
    return first;
  }

  /** How many numbers there are from the first vector to the last. */
  public int count() {
    return names.length;
  }

  /** Name of a vector's transition, or {@link #UNKNOWN}, which is no name. */
  public long of(long vector) {
    long at = vector - first;
    return at >= 0 && at < names.length ? names[(int) at] : UNKNOWN;
  }
}
