package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.RunFilter;
import cardproof.log.UnitId;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Lists the runs of a bench log, shows one, or adds a rework note. */
@Command(
    name = "log",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description = "Lists the runs of a bench log, shows one, or notes a rework.",
    footerHeading = "%nExample:%n",
    footer = {
      "  cardproof log vectors/sum --simulated",
      "  cardproof log vectors/sum --run 3",
      "  cardproof log vectors/sum --rework 'K7 replaced, joint at J4.3 redone' --card sum --unit 03"
    })
final class LogCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(
      paramLabel = "LOG",
      arity = "0..1",
      defaultValue = ".",
      description = "bench log, or the folder it lies in (default: this folder)")
  private Path place;

  @Option(names = "--card", paramLabel = "NAME", description = "only this card")
  private Optional<String> card = Optional.empty();

  @Option(names = "--unit", paramLabel = "NAME", description = "only this unit")
  private Optional<String> unit = Optional.empty();

  @Option(names = "--simulated", description = "units of the simulated bench instead of real ones")
  private boolean simulated;

  @Option(names = "--run", paramLabel = "N", description = "show this run")
  private Optional<Long> run = Optional.empty();

  @Option(
      names = "--supply",
      description =
          "with --run: rail and current over time as a table (CSV), a vector a row, for fixtures that"
              + " measure them")
  private boolean supply;

  @Option(
      names = "--rework",
      paramLabel = "NOTE",
      description = "note a repair of the unit named by --card and --unit")
  private Optional<String> rework = Optional.empty();

  @Override
  public Integer call() {
    Screen screen = Screen.of(spec.commandLine());
    if (supply && run.isEmpty()) {
      throw new ParameterException(spec.commandLine(), "--supply needs --run to say of which run");
    }
    Path file = BenchLogs.in(place);
    if (rework.isPresent()) {
      return addRework(file, screen);
    }
    try (BenchLog log = BenchLog.openForReading(file)) {
      if (run.isPresent() && supply) {
        log.run(run.get()).orElseThrow(() -> LoggedRun.noSuchRun(file, run.get()));
        SupplyCsv.print(log, run.get(), screen.out());
      } else if (run.isPresent()) {
        new LoggedRun(log, file, screen).print(run.get());
      } else {
        new LogListing(log, screen).print(filter(), simulated);
      }
    }
    screen.out().flush();
    return ExitCode.PASSED;
  }

  private int addRework(Path file, Screen screen) {
    if (card.isEmpty() || unit.isEmpty()) {
      throw new ParameterException(
          spec.commandLine(), "--rework needs --card and --unit to say what was repaired");
    }
    Clock clock = Clock.systemUTC();
    Instant now = clock.instant();
    UnitId id = new UnitId(card.get(), unit.get(), simulated);
    try (BenchLog log = BenchLog.open(file, clock)) {
      if (log.runs(RunFilter.of(id).limit(1)).isEmpty()) {
        throw new RefusedException(
            new Problem(
                file.toString(),
                "no run of " + id + " is in this log",
                "a unit that has been run here",
                log.runs(RunFilter.of(other(id)).limit(1)).isEmpty()
                    ? "'cardproof log' lists them, with --simulated those of the simulated bench"
                    : simulated
                        ? "Leave --simulated out for the real unit of that name"
                        : "Add --simulated for the simulated unit of that name"));
      }
      log.addRework(id, rework.get(), now);
    }
    screen.out().println("Noted for " + id + " at " + When.text(now) + ".");
    return ExitCode.PASSED;
  }

  private static UnitId other(UnitId id) {
    return new UnitId(id.card(), id.unit(), !id.simulated());
  }

  private RunFilter filter() {
    RunFilter filter =
        RunFilter.real().bench(simulated ? RunFilter.Bench.SIMULATED : RunFilter.Bench.REAL);
    if (card.isPresent()) {
      filter = filter.card(card.get());
    }
    return unit.isPresent() ? filter.unit(unit.get()) : filter;
  }
}
