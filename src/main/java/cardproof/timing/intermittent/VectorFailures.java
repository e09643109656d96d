package cardproof.timing.intermittent;

/**
 * How often one vector of a plan failed over the runs of it.
 *
 * @param vector its number in the plan, from 0
 * @param run a run in which it failed
 * @param failed how often it failed, at least once
 * @param judged how often it was judged
 */
public record VectorFailures(long vector, long run, int failed, int judged) {
  /** Whether it passed as well. */
  public boolean comesAndGoes() {
    return failed < judged;
  }
}
