package cardproof.cli;

import java.nio.file.Path;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Which card is measured, on what, and where its log is. */
final class PaceOptions {
  @Parameters(paramLabel = "PLAN", description = "plan that goes through the card's transitions")
  Path planFile;

  @Mixin FixtureOptions fixture;
  @Mixin FaultOptions faults;

  @Option(
      names = "--unit",
      paramLabel = "NAME",
      defaultValue = "01",
      description = "which copy of the card (default: ${DEFAULT-VALUE})")
  String unit;

  @Option(
      names = "--seed",
      paramLabel = "N",
      defaultValue = "1",
      description = "seed of the simulated bench (default: ${DEFAULT-VALUE})")
  long seed;

  @Option(
      names = "--log",
      paramLabel = "FILE",
      description = "bench log (default: bench-log.sqlite beside the plan)")
  private Path log;

  @Option(
      names = "--powered",
      description = "power, polarity and current limit have been checked: do not ask")
  boolean powered;

  Path logFile() {
    return BenchLogs.beside(planFile, log);
  }
}
