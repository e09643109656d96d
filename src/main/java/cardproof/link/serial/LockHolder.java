package cardproof.link.serial;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Who holds the advisory lock of a device file, from Linux's {@code /proc/locks} (proc(5)).
 *
 * <p>Asking there first matters: opening a port that is in use moves its control lines before the
 * lock is found taken, which resets the board that somebody else is working with.
 */
final class LockHolder {
  private static final Logger LOG = LoggerFactory.getLogger(LockHolder.class);
  private static final Path LOCKS = Path.of("/proc/locks");

  private LockHolder() {}

  /** Such as {@code process 41 (screen)}; empty when nobody holds it or the system cannot say. */
  static Optional<String> of(Path device) {
    if (!Files.isReadable(LOCKS)) {
      return Optional.empty();
    }
    try {
      long inode = (Long) Files.getAttribute(device, "unix:ino");
      long dev = (Long) Files.getAttribute(device, "unix:dev");
      return find(Files.readAllLines(LOCKS), dev, inode).map(LockHolder::describe);
    } catch (IOException | UnsupportedOperationException | IllegalArgumentException e) {
      LOG.debug("who locks {} is unknown", device, e);
      return Optional.empty();
    }
  }

  /** The process number in the line {@code 1: FLOCK ADVISORY WRITE pid major:minor:inode 0 EOF}. */
  static Optional<Long> find(List<String> locks, long dev, long inode) {
    String file = String.format("%02x:%02x:%d", major(dev), minor(dev), inode);
    return locks.stream()
        .map(line -> line.trim().split("\\s+"))
        .filter(part -> part.length > 5 && part[1].equals("FLOCK") && part[5].equals(file))
        .map(part -> Long.parseLong(part[4]))
        .findFirst();
  }

  /** Device numbers as glibc's {@code gnu_dev_major} and {@code gnu_dev_minor} split them. */
  private static long major(long dev) {
    return (dev >>> 8 & 0xfff) | (dev >>> 32 & ~0xfffL);
  }

  private static long minor(long dev) {
    return (dev & 0xff) | (dev >>> 12 & ~0xffL);
  }

  private static String describe(long pid) {
    if (pid == ProcessHandle.current().pid()) {
      return "this program itself";
    }
    String command =
        ProcessHandle.of(pid)
            .flatMap(process -> process.info().command())
            .map(path -> " (" + Path.of(path).getFileName() + ")")
            .orElse("");
    return pid > 0 ? "process " + pid + command : "another program";
  }
}
