package cardproof.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Assumptions;

/** Programs of this machine that a peer is built with. */
final class MachineTool {
  private MachineTool() {}

  /** Leaves the tests out, saying why, where a program is not installed and need not be. */
  static void needs(String program) {
    boolean there =
        List.of(System.getenv("PATH").split(File.pathSeparator)).stream()
            .anyMatch(folder -> Path.of(folder, program).toFile().canExecute());
    if (!there && "1".equals(System.getenv("CARDPROOF_REQUIRE_TOOLS"))) {
      throw new AssertionError(program + " is required on this machine");
    }
    if (!there) {
      System.out.println("left out: " + program + " is not on this machine");
    }
    Assumptions.assumeTrue(there, program + " is not on this machine");
  }

  static void run(String... words) {
    try {
      Process process = new ProcessBuilder(words).redirectErrorStream(true).start();
      process.getOutputStream().close();
      String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      assertThat(process.waitFor()).as(said).isZero();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }
}
