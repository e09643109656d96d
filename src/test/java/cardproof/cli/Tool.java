package cardproof.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Assumptions;

/**
 * A program of the machine that a test asks for its opinion.
 *
 * @param out standard output and standard error together
 */
record Tool(int exitCode, String out) {
  static Tool run(String... words) {
    try {
      Process process = new ProcessBuilder(words).redirectErrorStream(true).start();
      process.getOutputStream().close();
      String out = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      return new Tool(process.waitFor(), out);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted while " + List.of(words) + " ran", e);
    }
  }

  /** Leaves the test out, saying why, where a program is not installed and need not be. */
  static void needs(String program) {
    boolean there =
        List.of(System.getenv("PATH").split(java.io.File.pathSeparator)).stream()
            .anyMatch(folder -> Path.of(folder, program).toFile().canExecute());
    if ("1".equals(System.getenv("CARDPROOF_REQUIRE_TOOLS")) && !there) {
      throw new AssertionError(program + " is required on this machine");
    }
    if (!there) {
      System.out.println("left out: " + program + " is not on this machine");
    }
    Assumptions.assumeTrue(there, program + " is not on this machine");
  }
}
