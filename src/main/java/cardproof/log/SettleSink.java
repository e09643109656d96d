package cardproof.log;

/** Takes settle times as they are read, without an object each. */
@FunctionalInterface
public interface SettleSink {
  /**
   * @param vector number of the vector
   * @param lastUs last change of the line, from the vector's start
   * @param censored whether the line was not seen to hold still after it
   */
  void accept(long vector, long lastUs, boolean censored);
}
