package cardproof.sim;

/** Who is told of every write to the line, byte for byte, in the order in which they were made. */
@FunctionalInterface
public interface FrameTrace {
  /**
   * @param nowNs when it was put on the line, on the clock of the bench
   * @param toFixture else from the fixture, and one whole frame
   * @param bytes not to be changed
   */
  void onLine(long nowNs, boolean toFixture, byte[] bytes);
}
