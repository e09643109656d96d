package cardproof.pty;

/**
 * The far end of a serial line, seen as bytes. Never blocks, never reads a clock: time is a
 * parameter, in nanoseconds since the device was powered, never going back. One thread calls it.
 *
 * <p>A simulated device whose time is virtual runs itself up to {@code nowNs} in each call; so the
 * same class may stand behind a pseudo-terminal in real time and behind a queue in virtual time.
 */
public interface Device {
  /** {@link #nextDueNs} of a device that waits for bytes and nothing else. */
  long NEVER = Long.MAX_VALUE;

  /** {@code bytes[0, count)} have come; at most {@link #appetite} of them. */
  void receive(byte[] bytes, int count, long nowNs);

  /**
   * When the device wants to be called next, by {@link #produce}, if nothing comes before; in the
   * past means at once.
   */
  long nextDueNs();

  /** Runs to {@code nowNs} and puts out what has become due; 0 when nothing has. */
  int produce(byte[] into, long nowNs);

  /** How many bytes it takes now; 0 for a device that has stopped reading. */
  default int appetite(long nowNs) {
    return 4096;
  }

  /** Somebody does something to it: presses its reset, say. */
  default void command(char what, long nowNs) {
    throw new IllegalArgumentException("this device knows no command '" + what + "'");
  }
}
