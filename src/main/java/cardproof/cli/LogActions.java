package cardproof.cli;

import java.nio.file.Path;
import java.time.Instant;
import java.util.Optional;
import picocli.CommandLine.Option;

/** What else than listing can be done with a bench log; one of them at a time. */
final class LogActions {
  @Option(names = "--run", paramLabel = "N", description = "show this run")
  Optional<Long> run = Optional.empty();

  @Option(
      names = "--rework",
      paramLabel = "NOTE",
      description = "note a repair of the unit named by --card and --unit")
  Optional<String> rework = Optional.empty();

  @Option(
      names = "--export",
      paramLabel = "TARGET",
      description =
          "write the runs listed, with every vector and moved line, for other programs: one JSON"
              + " document where TARGET ends in .json, else a folder of tables (CSV)")
  Optional<Path> export = Optional.empty();

  @Option(
      names = "--merge",
      paramLabel = "OTHER",
      description =
          "take the runs and rework notes of another bench log that are not here yet; they get"
              + " numbers of this one")
  Optional<Path> merge = Optional.empty();

  @Option(
      names = "--forget-before",
      paramLabel = "DATE",
      converter = SinceOption.class,
      description =
          "take runs that started earlier out of the log for good, after asking; rework notes stay,"
              + " and so do runs that a later one continues")
  Optional<Instant> forgetBefore = Optional.empty();
}
