package cardproof.pty;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Signals to processes that a test started itself. */
public enum PosixSignals {
  /** Numbers of POSIX.1-2017, {@code kill}; those of STOP and CONT are Linux's (signal(7)). */
  HUP(1),
  INT(2),
  KILL(9),
  TERM(15),
  CONT(18),
  STOP(19);

  private static final String IGNORED = "SigIgn:";

  private final int number;

  PosixSignals(int number) {
    this.number = number;
  }

  public void send(Process process) {
    if (!process.isAlive()) {
      throw new IllegalStateException("no " + this + " to a process that has ended");
    }
    LibC.INSTANCE.kill(Math.toIntExact(process.pid()), number);
  }

  /**
   * Whether the process was told to ignore it, as {@code nohup} and a shell's background jobs are;
   * from {@code /proc/PID/status} (proc(5)).
   */
  public boolean isIgnoredBy(Process process) throws IOException {
    Path status = Path.of("/proc", Long.toString(process.pid()), "status");
    return Files.readAllLines(status).stream()
        .filter(line -> line.startsWith(IGNORED))
        .map(line -> Long.parseUnsignedLong(line.substring(IGNORED.length()).strip(), 16))
        .anyMatch(mask -> (mask >>> (number - 1) & 1) != 0);
  }
}
