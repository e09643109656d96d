package cardproof.link;

/**
 * A byte stream to a fixture together with the clock that its deadlines are measured on.
 *
 * <p>A serial port and the simulated bench both stand behind this. One thread uses a wire; on the
 * simulated bench {@link #read} is also what lets virtual time pass.
 */
public interface Wire extends AutoCloseable {
  /** What the user calls it: a port name, or the simulated bench. */
  String name();

  /** Nanoseconds on this wire's clock, from an arbitrary start, never going back. */
  long nowNs();

  /**
   * Hands bytes to the line without waiting for them to leave.
   *
   * @throws LinkException when the line is gone or has not taken bytes for too long
   */
  void write(byte[] bytes);

  /**
   * Waits until bytes have come or the deadline has passed.
   *
   * @param deadlineNs on {@link #nowNs}'s clock; in the past means: do not wait
   * @return how many bytes were put into {@code into}; 0 when the deadline passed first
   * @throws LinkException when the line is gone
   */
  int read(byte[] into, long deadlineNs);

  /**
   * From now on repeats {@code frame} every {@code periodNs} in which nothing else was written,
   * until {@code untilNs}; replaces what an earlier call asked for. The limit is a lease: it keeps
   * a hung program from holding coils.
   */
  void keepAlive(byte[] frame, long periodNs, long untilNs);

  /** Releases the line; never throws, may be called twice. */
  @Override
  void close();
}
