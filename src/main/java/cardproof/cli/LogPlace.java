package cardproof.cli;

import java.nio.file.Path;
import picocli.CommandLine.Parameters;

/** The bench log that a command reads. */
final class LogPlace {
  @Parameters(
      paramLabel = "LOG",
      arity = "0..1",
      defaultValue = ".",
      description = "bench log, or the folder it lies in (default: this folder)")
  private Path place;

  Path file() {
    return BenchLogs.in(place);
  }
}
