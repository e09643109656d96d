package cardproof.log;

/** Takes settle times as they are read, without an object each. */
@FunctionalInterface
public interface SettleSink {
  /**
   * @param line index over the whole card, as the run named it
   * @param endsHigh its level at the end, which is the direction the time belongs to
   * @param vector number of the vector
   * @param lastUs last change of the line, from the vector's start
   * @param censored whether the line was not seen to hold still after it
   */
  void accept(int line, boolean endsHigh, long vector, long lastUs, boolean censored);
}
