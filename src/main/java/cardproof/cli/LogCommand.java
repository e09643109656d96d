package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.RunFilter;
import cardproof.log.RunSummary;
import cardproof.log.UnitId;
import cardproof.report.table.LogExport;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Supplier;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Lists the runs of a bench log, shows one, notes a rework, and keeps the log itself in order. */
@Command(
    name = "log",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description = {
      "Lists the runs of a bench log, or shows one.",
      "Notes a rework, writes records for other programs, takes in the log of another bench, and"
          + " forgets old runs."
    },
    footerHeading = "%nExample:%n",
    footer = {
      "  cardproof log vectors/sum --simulated",
      "  cardproof log vectors/sum --run 3",
      "  cardproof log vectors/sum --rework 'K7 replaced, joint at J4.3 redone' --card sum --unit 03"
          + " --picture k7.jpg",
      "  cardproof log vectors/sum --export sum.json",
      "  cardproof log vectors/sum --merge /media/other/bench-log.sqlite"
    })
final class LogCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Mixin private LogPlace place;

  @Option(names = "--card", paramLabel = "NAME", description = "only this card")
  private Optional<String> card = Optional.empty();

  @Option(names = "--unit", paramLabel = "NAME", description = "only this unit")
  private Optional<String> unit = Optional.empty();

  @Option(names = "--simulated", description = "units of the simulated bench instead of real ones")
  private boolean simulated;

  @Option(
      names = "--since",
      paramLabel = "DATE",
      converter = SinceOption.class,
      description = "only runs that started then or later, as 2026-03-01 or 2026-03-01T14:30")
  private Optional<Instant> since = Optional.empty();

  @Option(
      names = "--supply",
      description =
          "with --run: rail and current over time as a table (CSV), a vector a row, for fixtures that"
              + " measure them")
  private boolean supply;

  @Option(
      names = "--picture",
      paramLabel = "FILE",
      description = "with --rework: a picture of it, kept by its name; may be given again")
  private List<String> pictures = new ArrayList<>();

  @ArgGroup private LogActions actions = new LogActions();

  private final Supplier<Optional<Answers>> answers;

  LogCommand() {
    this(Answers::atTerminal);
  }

  LogCommand(Supplier<Optional<Answers>> answers) {
    this.answers = answers;
  }

  @Override
  public Integer call() {
    Screen screen = Screen.of(spec.commandLine());
    needs(supply, "--supply", actions.run.isPresent(), "--run to say of which run");
    needs(
        !pictures.isEmpty(),
        "--picture",
        actions.rework.isPresent(),
        "--rework to say what was repaired");
    Path file = place.file();
    LogChanges changes = new LogChanges(file, screen, answers);
    if (actions.rework.isPresent()) {
      needs(
          true,
          "--rework",
          card.isPresent() && unit.isPresent(),
          "--card and --unit to say what was repaired");
      UnitId repaired = new UnitId(card.get(), unit.get(), simulated);
      return changes.rework(repaired, actions.rework.get(), pictures);
    }
    if (actions.merge.isPresent()) {
      return changes.merge(actions.merge.get());
    }
    if (actions.forgetBefore.isPresent()) {
      return changes.forget(actions.forgetBefore.get());
    }
    try (BenchLog log = BenchLog.openForReading(file)) {
      read(log, file, screen);
    }
    screen.out().flush();
    return ExitCode.PASSED;
  }

  private void needs(boolean given, String option, boolean there, String what) {
    if (given && !there) {
      throw new ParameterException(spec.commandLine(), option + " needs " + what);
    }
  }

  private void read(BenchLog log, Path file, Screen screen) {
    if (actions.run.isPresent() && supply) {
      long run = actions.run.get();
      log.run(run).orElseThrow(() -> LoggedRun.noSuchRun(file, run));
      SupplyCsv.print(log, run, screen.out());
    } else if (actions.run.isPresent()) {
      new LoggedRun(log, file, screen).print(actions.run.get());
    } else if (actions.export.isPresent()) {
      export(log, actions.export.get(), screen);
    } else {
      new LogListing(log, screen).print(filter(), simulated);
      if (card.isPresent() && unit.isPresent()) {
        UnitId id = new UnitId(card.get(), unit.get(), simulated);
        new UnitFailures(log, screen).print(id, log.runs(filter()));
      }
    }
  }

  private void export(BenchLog log, Path target, Screen screen) {
    List<RunSummary> runs = new ArrayList<>(log.runs(filter()));
    Collections.reverse(runs);
    if (target.toString().endsWith(".json")) {
      LogExport.toJson(log, runs, target);
    } else {
      LogExport.toCsv(log, runs, target);
    }
    screen.out().println(Plural.of(runs.size(), "run") + " written to " + target + ".");
  }

  private RunFilter filter() {
    RunFilter filter =
        RunFilter.real().bench(simulated ? RunFilter.Bench.SIMULATED : RunFilter.Bench.REAL);
    if (card.isPresent()) {
      filter = filter.card(card.get());
    }
    if (since.isPresent()) {
      filter = filter.since(since.get());
    }
    return unit.isPresent() ? filter.unit(unit.get()) : filter;
  }
}
