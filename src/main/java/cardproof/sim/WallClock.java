package cardproof.sim;

/** A clock that goes by itself, and the means to wait for it. */
public interface WallClock {
  /** Nanoseconds from an arbitrary start, never going back. */
  long nanoTime();

  /** Returns when {@link #nanoTime} has come to {@code untilNs}; at once where that has passed. */
  void waitUntil(long untilNs);
}
