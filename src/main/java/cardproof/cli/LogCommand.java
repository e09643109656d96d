package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.LineName;
import cardproof.log.Rework;
import cardproof.log.RunDetail;
import cardproof.log.RunEnd;
import cardproof.log.RunFilter;
import cardproof.log.RunSummary;
import cardproof.log.StepTitle;
import cardproof.log.UnitId;
import cardproof.log.VectorRecord;
import cardproof.log.Verdict;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import cardproof.timing.SettleTable;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
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
  private static final DateTimeFormatter WHEN =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm:ss", Locale.ROOT)
          .withZone(ZoneId.systemDefault());
  private static final int FAILURES_SHOWN = 10;

  @Spec private CommandSpec spec;

  @Parameters(
      paramLabel = "LOG",
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
      names = "--rework",
      paramLabel = "NOTE",
      description = "note a repair of the unit named by --card and --unit")
  private Optional<String> rework = Optional.empty();

  @Override
  public Integer call() {
    Screen screen = Screen.of(spec.commandLine());
    Path file = BenchLogs.in(place);
    if (rework.isPresent()) {
      return addRework(file, screen);
    }
    try (BenchLog log = BenchLog.openForReading(file)) {
      if (run.isPresent()) {
        show(log, file, run.get(), screen);
      } else {
        list(log, screen);
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
      log.addRework(id, rework.get(), now);
    }
    screen.out().println("Noted for " + id + " at " + WHEN.format(now) + ".");
    return ExitCode.PASSED;
  }

  private RunFilter filter() {
    RunFilter filter =
        RunFilter.real().bench(simulated ? RunFilter.Bench.SIMULATED : RunFilter.Bench.REAL);
    if (card.isPresent()) {
      filter = filter.card(card.get());
    }
    return unit.isPresent() ? filter.unit(unit.get()) : filter;
  }

  private void list(BenchLog log, Screen screen) {
    PrintWriter out = screen.out();
    List<RunSummary> runs = log.runs(filter());
    if (runs.isEmpty()) {
      out.println(
          "No runs of "
              + (simulated ? "simulated" : "real")
              + " units here."
              + (simulated ? "" : " With --simulated: those of the simulated bench."));
      return;
    }
    if (simulated) {
      out.println("SIMULATED units");
    }
    out.printf(
        "%5s  %-19s  %-16s %-12s %8s  %s%n",
        "run", "started", "unit", "ended", "vectors", "verdicts");
    for (RunSummary summary : runs) {
      out.printf(
          "%5d  %-19s  %-16s %-12s %8d  %s%n",
          summary.id(),
          WHEN.format(summary.started()),
          summary.unit().card() + " " + summary.unit().unit(),
          summary.end().word(),
          summary.vectors(),
          counts(summary.counts()) + (summary.partial() ? ", chosen steps only" : ""));
    }
    reworks(log, runs, out);
  }

  private static void reworks(BenchLog log, List<RunSummary> runs, PrintWriter out) {
    runs.stream()
        .map(RunSummary::unit)
        .distinct()
        .forEach(
            id -> {
              for (Rework rework : log.reworks(id)) {
                out.println(
                    "rework of " + id + ", " + WHEN.format(rework.at()) + ": " + rework.note());
              }
            });
  }

  private static String counts(Map<Verdict, Long> counts) {
    return counts.entrySet().stream()
        .filter(entry -> entry.getValue() > 0)
        .map(entry -> entry.getValue() + " " + entry.getKey().word())
        .collect(Collectors.joining(", "));
  }

  private static void show(BenchLog log, Path file, long id, Screen screen) {
    RunDetail detail = log.run(id).orElseThrow(() -> noSuchRun(file, id));
    RunSummary summary = detail.summary();
    PrintWriter out = screen.out();
    out.println(
        screen.strong(summary.planTitle()) + (summary.unit().simulated() ? "   SIMULATED" : ""));
    out.printf(
        "run %d of %s%n  plan %s, started %s on %s%n  board %s, firmware %s%s%n",
        id,
        summary.unit(),
        summary.plan(),
        WHEN.format(summary.started()),
        summary.host(),
        detail.start().fixture().board(),
        detail.start().fixture().firmware(),
        detail.start().seed().isPresent() ? ", seed " + detail.start().seed().getAsLong() : "");
    detail.start().faults().forEach(fault -> out.println("  fault put in: " + fault));
    if (!detail.start().note().isEmpty()) {
      out.println("  note: " + detail.start().note());
    }
    out.println();
    failures(log, detail, id, out);
    new SettlePrinter(screen).print(SettleTable.of(log, id).rows());
    out.printf(
        "%d of %d vectors recorded: %s%n",
        summary.vectors(), detail.start().plannedVectors(), counts(summary.counts()));
    out.println(
        summary.end().word()
            + (summary.why().isEmpty() ? "" : ": " + summary.why())
            + (summary.end() == RunEnd.INTERRUPTED
                ? ": the program ended without a word; every vector it had reported is here"
                : ""));
  }

  private static void failures(BenchLog log, RunDetail detail, long id, PrintWriter out) {
    Map<Integer, StepTitle> steps =
        detail.steps().stream().collect(Collectors.toMap(StepTitle::step, step -> step));
    for (VectorRecord failed : log.failures(id, FAILURES_SHOWN)) {
      StepTitle step = steps.get(failed.step());
      out.printf(
          "%s  vector %d at %s:%d#%d: %s%n",
          failed.verdict().word().toUpperCase(Locale.ROOT),
          failed.number() + 1,
          step.file(),
          step.line(),
          failed.indexInStep() + 1,
          step.title());
      out.println("  " + failed.why() + wrongLines(failed, detail.start().lines()));
    }
  }

  private static String wrongLines(VectorRecord failed, List<LineName> lines) {
    BitSet wrong = (BitSet) failed.seen().clone();
    wrong.xor(failed.wanted());
    wrong.and(failed.cared());
    List<String> words = new ArrayList<>();
    wrong.stream()
        .forEach(
            i ->
                words.add(
                    lines.get(i).label()
                        + " ("
                        + place(lines.get(i))
                        + lines.get(i).pin()
                        + ") seen "
                        + (failed.seen().get(i) ? 1 : 0)));
    return words.isEmpty() ? "" : ": " + String.join(", ", words);
  }

  /** Where a printed label does not say it: {@code "bit 11 of S, "}. */
  private static String place(LineName line) {
    return line.label().startsWith(line.bus() + "[") || line.label().equals(line.bus())
        ? ""
        : "bit " + line.bit() + " of " + line.bus() + ", ";
  }

  private static RefusedException noSuchRun(Path file, long id) {
    return new RefusedException(
        new Problem(
            file.toString(),
            "there is no run " + id,
            "the number of a run in this log",
            "'cardproof log' lists them, with --simulated those of the simulated bench"));
  }
}
