package cardproof.log;

/** Takes verdicts as they are read. */
@FunctionalInterface
public interface VerdictSink {
  /**
   * Takes one.
   *
   * @param vector its number
   */
  void accept(long vector, Verdict verdict);
}
