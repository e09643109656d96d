package cardproof.link.serial;

import cardproof.link.Wire;
import com.fazecast.jSerialComm.SerialPort;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.locks.LockSupport;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A serial port as a {@link Wire}, in real time.
 *
 * <p>Two threads serve it: one reads, one writes and keeps the fixture alive. That the device is
 * gone shows within 100 ms; that the line takes nothing shows 1 s to 1.1 s after it stopped. Either
 * is thrown by the next call, once the bytes that came before have been read. An interrupt ends no
 * wait; it is kept for the caller. One thread uses a wire, but any thread may close it.
 */
public final class SerialWire implements Wire {
  private static final Logger LOG = LoggerFactory.getLogger(SerialWire.class);
  private static final int INBOX_BYTES = 64 * 1024;
  private static final long ADAPTER_NS = 100_000_000L;
  private static final long DRAIN_NS = 1_000_000_000L;
  private static final long CLOSE_NS = 2_000_000_000L;
  private static final long POLL_NS = 1_000_000L;

  private final String name;
  private final SerialPort port;
  private final Health health = new Health();
  private final PortProblems problems;
  private final Inbox inbox;
  private final Sender sender;
  private final Receiver receiver;
  private final Thread reading;
  private final Thread writing;
  private final AtomicBoolean closed = new AtomicBoolean();

  private SerialWire(String name, SerialPort port, LineSettings settings) {
    this.name = name;
    this.port = port;
    this.problems = new PortProblems(name);
    ByteLine line = new DriverLine(port);
    this.inbox = new Inbox(INBOX_BYTES, System::nanoTime, health);
    this.sender = new Sender(line, settings.pieceBytes(), System::nanoTime, health, problems);
    this.receiver = new Receiver(line, inbox, sender, health, problems);
    health.onFailure(() -> LOG.debug("failed: {}", health.problem().orElseThrow()));
    this.reading = new Thread(receiver, "serial reader " + name);
    this.writing = new Thread(sender, "serial writer " + name);
    for (Thread thread : new Thread[] {reading, writing}) {
      thread.setDaemon(true);
      thread.setUncaughtExceptionHandler((dead, why) -> threadDied(why));
    }
  }

  /**
   * The other half must not go on alone: beats would hold the drives of a run that hears nothing.
   */
  private void threadDied(Throwable why) {
    LOG.error("{}: a thread of the line died", name, why);
    health.fail(problems.broken(why));
  }

  /**
   * Opens a port with both control lines low, so that the board behind it is not reset.
   *
   * @param port a name of {@link SerialPorts#list}, or a link to such a file
   * @param baud bits per second
   * @throws cardproof.link.LinkException when it is missing, in use, not permitted or no serial
   *     port
   */
  public static SerialWire open(String port, int baud) {
    return open(port, LineSettings.withoutReset(baud));
  }

  /** As {@link #open(String, int)}, for boards that want a control line raised. */
  public static SerialWire open(String port, LineSettings settings) {
    SerialWire wire = new SerialWire(port, PortOpener.open(port, settings), settings);
    wire.reading.start();
    wire.writing.start();
    return wire;
  }

  @Override
  public String name() {
    return name;
  }

  @Override
  public long nowNs() {
    return System.nanoTime();
  }

  /** Queues up to 16 KiB; waits for room beyond that, and for at most 1 s of a line at rest. */
  @Override
  public void write(byte[] bytes) {
    sender.write(bytes);
  }

  @Override
  public int read(byte[] into, long deadlineNs) {
    return inbox.take(into, deadlineNs);
  }

  /** The first repetition comes {@code periodNs} after the last byte that was written. */
  @Override
  public void keepAlive(byte[] frame, long periodNs, long untilNs) {
    sender.keepAlive(frame, periodNs, untilNs);
  }

  /**
   * Gives what was written a second to leave, so that a last "stop" is not lost with the driver's
   * buffer; then lets go of the port. Takes at most 5 s, and that only with a driver that hangs.
   */
  @Override
  public void close() {
    if (!closed.compareAndSet(false, true)) {
      return;
    }
    boolean left = !health.failed() && sender.drain(DRAIN_NS) && driverDrained();
    receiver.stop();
    sender.stop();
    health.fail(problems.closed());
    // On a thread of its own, as a driver may hang in it; it also frees a write that is stuck.
    Thread closing = new Thread(port::closePort, "serial closer " + name);
    closing.setDaemon(true);
    closing.start();
    boolean done =
        Patience.join(closing, CLOSE_NS)
            & Patience.join(reading, CLOSE_NS / 4)
            & Patience.join(writing, CLOSE_NS / 4);
    LOG.debug("{}: closed, everything sent: {}, driver let go: {}", name, left, done);
  }

  /**
   * Closing discards what the driver still holds; where it cannot say how much, that is 0. What it
   * has handed on may lie in an adapter, or in a pseudo-terminal, a little longer, and is discarded
   * there too: hence the wait at the end.
   */
  private boolean driverDrained() {
    long start = System.nanoTime();
    while (port.bytesAwaitingWrite() > 0) {
      if (System.nanoTime() - start > DRAIN_NS) {
        return false;
      }
      LockSupport.parkNanos(POLL_NS);
    }
    LockSupport.parkNanos(ADAPTER_NS);
    return true;
  }

  private record DriverLine(SerialPort port) implements ByteLine {
    @Override
    public int read(byte[] into) {
      return port.readBytes(into, into.length);
    }

    @Override
    public int write(byte[] bytes, int count) {
      return port.writeBytes(bytes, count);
    }
  }
}
