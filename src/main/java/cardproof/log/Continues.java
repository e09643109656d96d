package cardproof.log;

/**
 * That a run goes on where another ended early.
 *
 * @param run the one that it continues, in the same log
 * @param at number of the first vector whose record in the new run holds; below it those of the run
 *     before stand
 */
public record Continues(long run, long at) {
  public Continues {
    if (run < 1 || at < 0) {
      throw new IllegalArgumentException("run " + run + " from vector " + at);
    }
  }
}
