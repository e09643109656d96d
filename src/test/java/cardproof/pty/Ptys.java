package cardproof.pty;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;

/** Whether this machine can run tests on pseudo-terminals. */
public final class Ptys {
  private Ptys() {}

  /** Skips the test, saying why, where there are none. */
  public static void assumeAvailable() {
    String system = System.getProperty("os.name");
    assumeTrue("Linux".equals(system), () -> "skipped: no pseudo-terminals for tests on " + system);
    Path ptmx = Path.of("/dev/ptmx");
    assumeTrue(
        Files.isReadable(ptmx) && Files.isWritable(ptmx) && Files.isDirectory(Path.of("/dev/pts")),
        "skipped: /dev/ptmx or /dev/pts is missing or closed to this user");
  }
}
