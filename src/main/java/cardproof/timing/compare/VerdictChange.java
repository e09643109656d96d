package cardproof.timing.compare;

/**
 * A vector whose verdict changed.
 *
 * @param before its outcome in the runs before
 * @param after its outcome in the runs after
 */
public record VerdictChange(Outcome before, Outcome after) {
  /** Whether it passed before and fails now. */
  public boolean isWorse() {
    return after.fails();
  }
}
