package cardproof.timing;

import cardproof.log.LineName;
import cardproof.log.RunTransitions;

/**
 * The settle times of one line in one direction in one run, a vector each, in the order of the
 * vectors; what the fixture itself moved, and what was part of a timed sequence, is left out. Late
 * and wrong vectors are among them. Times in microseconds on the fixture's clock; each change
 * happened within the sampling period before.
 */
public final class LineSettles {
  private final LineName line;
  private final boolean endsHigh;
  private final long[] vectors;
  private final long[] transitions;
  private final long[] settleUs;
  private final boolean[] censored;

  LineSettles(
      LineName line,
      boolean endsHigh,
      long[] vectors,
      long[] transitions,
      long[] settleUs,
      boolean[] censored) {
    this.line = line;
    this.endsHigh = endsHigh;
    this.vectors = vectors;
    this.transitions = transitions;
    this.settleUs = settleUs;
    this.censored = censored;
  }

  /** The line as the run named it. */
  public LineName line() {
    return line;
  }

  /** Whether these are the changes that ended in 1. */
  public boolean endsHigh() {
    return endsHigh;
  }

  /** How many there are, censored ones among them. */
  public int count() {
    return vectors.length;
  }

  /** Number of the vector of the n-th. */
  public long vector(int n) {
    return vectors[n];
  }

  /** Name of its transition, or {@link RunTransitions#UNKNOWN}. */
  public long transition(int n) {
    return transitions[n];
  }

  /** From the drive change to the last change of the line; a censored one took longer than that. */
  public long settleUs(int n) {
    return settleUs[n];
  }

  /** Whether the line was not seen to hold still after it. */
  public boolean censored(int n) {
    return censored[n];
  }
}
