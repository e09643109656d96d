package cardproof.timing.compare;

/**
 * How often a vector failed over some runs.
 *
 * @param run the first of the runs that has it
 * @param vector its number there, from 0
 * @param failed how often it did not pass
 * @param judged how often it was judged
 */
public record Outcome(long run, long vector, int failed, int judged) {
  /** Whether it failed more often than not. */
  public boolean fails() {
    return 2 * failed > judged;
  }

  Outcome and(boolean alsoFailed) {
    return new Outcome(run, vector, failed + (alsoFailed ? 1 : 0), judged + 1);
  }
}
