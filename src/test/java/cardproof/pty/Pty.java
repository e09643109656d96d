package cardproof.pty;

import com.sun.jna.LastErrorException;
import com.sun.jna.Memory;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.locks.ReentrantLock;

/**
 * A raw pseudo-terminal, Linux only. The driver under test opens {@link #port()}; the test holds
 * the other end.
 *
 * <p>The port is kept open here too: without that the other end reads EIO as soon as the driver
 * closes. All waits have a limit, and {@link #close} comes between them, never into one. Methods
 * may be called from any thread.
 */
public final class Pty implements AutoCloseable {
  private static final long SLICE_NS = 20_000_000L;
  private static final int POLL_FD_BYTES = 8;
  private static final int BUFFER_BYTES = 4096;

  private final ReentrantLock lock = new ReentrantLock(true);
  private final Memory poll = new Memory(POLL_FD_BYTES);
  private final Memory timeout = new Memory(16);
  private final Memory outgoing = new Memory(BUFFER_BYTES);
  private final int master;
  private final int slave;
  private final String port;
  private boolean open = true;

  private Pty(int master, int slave, String port) {
    this.master = master;
    this.slave = slave;
    this.port = port;
  }

  /** Makes a new pair, in raw mode. */
  public static Pty open() {
    LibC c = LibC.INSTANCE;
    int master = c.posix_openpt(LibC.O_RDWR | LibC.O_NOCTTY | LibC.O_NONBLOCK | LibC.O_CLOEXEC);
    c.grantpt(master);
    c.unlockpt(master);
    byte[] name = new byte[128];
    int error = c.ptsname_r(master, name, name.length);
    if (error != 0) {
      throw new LastErrorException(error);
    }
    int end = 0;
    while (name[end] != 0) {
      end++;
    }
    String port = new String(name, 0, end, StandardCharsets.US_ASCII);
    int slave = c.open(port, LibC.O_RDWR | LibC.O_NOCTTY | LibC.O_CLOEXEC);
    makeRaw(slave);
    return new Pty(master, slave, port);
  }

  private static void makeRaw(int fd) {
    try (Memory termios = new Memory(LibC.TERMIOS_BYTES)) {
      LibC.INSTANCE.tcgetattr(fd, termios);
      LibC.INSTANCE.cfmakeraw(termios);
      LibC.INSTANCE.tcsetattr(fd, LibC.TCSANOW, termios);
    }
  }

  /** The device file, such as {@code /dev/pts/4}. */
  public String port() {
    return port;
  }

  /** Makes {@code directory/name} a link to the port, as udev does for boards it knows. */
  public Path link(Path directory, String name) {
    try {
      return Files.createSymbolicLink(directory.resolve(name), Path.of(port));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * Waits until the wished for is possible.
   *
   * @return whether bytes can be read or, with {@code toWrite}, be written; false after {@code
   *     limitNs}, which is cut to 20 ms so that nobody who wants to close waits longer
   */
  public boolean await(boolean toRead, boolean toWrite, long limitNs) {
    lock.lock();
    try {
      long waitNs = Math.max(0, Math.min(SLICE_NS, limitNs));
      timeout.setLong(0, 0);
      timeout.setLong(8, waitNs);
      poll.setInt(0, open ? master : -1);
      poll.setShort(4, (short) ((toRead ? LibC.POLLIN : 0) | (toWrite ? LibC.POLLOUT : 0)));
      poll.setShort(6, (short) 0);
      return LibC.INSTANCE.ppoll(poll, 1, timeout, null) > 0;
    } catch (LastErrorException e) {
      return tolerate(e, LibC.EINTR) > 0;
    } finally {
      lock.unlock();
    }
  }

  /** What the driver wrote, without waiting; 0 for nothing, -1 once closed. */
  public int read(byte[] into) {
    lock.lock();
    try {
      return open ? (int) LibC.INSTANCE.read(master, into, into.length) : -1;
    } catch (LastErrorException e) {
      return tolerate(e, LibC.EAGAIN);
    } finally {
      lock.unlock();
    }
  }

  /** How many of {@code bytes[from, to)} went to the driver, without waiting; -1 once closed. */
  public int write(byte[] bytes, int from, int to) {
    lock.lock();
    try {
      int count = Math.min(BUFFER_BYTES, to - from);
      outgoing.write(0, bytes, from, count);
      return open ? (int) LibC.INSTANCE.write(master, outgoing, count) : -1;
    } catch (LastErrorException e) {
      return tolerate(e, LibC.EAGAIN);
    } finally {
      lock.unlock();
    }
  }

  private static int tolerate(LastErrorException e, int expected) {
    if (e.getErrorCode() != expected) {
      throw e;
    }
    return 0;
  }

  /** Unplugs the device; may be called twice. Bytes the driver has not read yet are lost. */
  @Override
  public void close() {
    lock.lock();
    try {
      if (open) {
        open = false;
        LibC.INSTANCE.close(slave);
        LibC.INSTANCE.close(master);
      }
    } finally {
      lock.unlock();
    }
  }
}
