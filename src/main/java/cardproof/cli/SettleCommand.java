package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.LineName;
import cardproof.log.RunFilter;
import cardproof.log.RunSummary;
import cardproof.log.UnitId;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import cardproof.timing.RunSettles;
import cardproof.timing.history.SettleHistory;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Predicate;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Shows how long each line of a unit takes, over its runs. */
@Command(
    name = "settle",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description = {
      "Shows how long each line of a unit takes to settle, over its runs.",
      "A settle time belongs to a transition: what was driven and seen before, and what is driven"
          + " then. Figures of a line over all its transitions describe the mix that the plans"
          + " happened to make, and bound nothing; pace works out what can be relied on."
    },
    footerHeading = "%nExample:%n",
    footer = {
      "  cardproof settle vectors/sum --simulated --card sum --unit 03",
      "  cardproof settle vectors/sum --unit 03 --line S[11] --since 2026-03-01 --csv > s11.csv"
    })
final class SettleCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Mixin private LogPlace place;

  @Mixin private UnitOptions unitOptions;

  @Option(
      names = "--line",
      paramLabel = "LINE",
      description = "only this one: a bus, a bit as in S[3], a label or a pin; may be given again")
  private List<String> lines = new ArrayList<>();

  @Option(
      names = "--since",
      paramLabel = "DATE",
      converter = SinceOption.class,
      description = "only runs that started then or later, as 2026-03-01 or 2026-03-01T14:30")
  private Optional<Instant> since = Optional.empty();

  @ArgGroup private Form form = new Form();

  private static final class Form {
    @Option(names = "--transitions", description = "every transition of every line, slowest first")
    private boolean transitions;

    @Option(
        names = "--csv",
        description = "every transition of every line as a table (CSV), times in microseconds")
    private boolean csv;

    @Option(names = "--json", description = "the same as one JSON object")
    private boolean json;
  }

  @Override
  public Integer call() {
    Screen screen = Screen.of(spec.commandLine());
    Path file = place.file();
    try (BenchLog log = BenchLog.openForReading(file)) {
      SettleView view = view(log, file);
      if (form.csv) {
        SettleCsv.print(view, log, screen.out());
      } else if (form.json) {
        SettleJson.print(view, log, screen.out());
      } else {
        new SettlePage(view, log, screen).print(form.transitions);
      }
    }
    screen.out().flush();
    return ExitCode.PASSED;
  }

  private SettleView view(BenchLog log, Path file) {
    UnitId unit = unitOptions.choose(log, file);
    RunFilter filter = RunFilter.of(unit);
    List<RunSummary> runs = log.runs(since.map(filter::since).orElse(filter));
    if (runs.isEmpty()) {
      throw new RefusedException(
          new Problem(
              file.toString(),
              "no run of " + unit + " started at " + When.text(since.orElseThrow()) + " or later",
              "at least one",
              "Leave --since out, or give an earlier date"));
    }
    List<RunSummary> used = new ArrayList<>();
    List<RunSummary> leftOut = new ArrayList<>();
    runs.forEach(run -> (RunSettles.isVoid(log, run.id()) ? leftOut : used).add(run));
    if (used.isEmpty()) {
      throw new RefusedException(
          new Problem(
              file.toString(),
              "the settle times of all "
                  + Plural.of(runs.size(), "run")
                  + " of "
                  + unit
                  + " are void: the card moved after it had been called settled",
              "a run in which it did not",
              "Run the plan with a longer quiet window ('limits: {quiet: ...}' of the card)"));
    }
    Predicate<LineName> wanted = LineChoice.of(lines, log.lines(used.get(0).id()), file);
    return new SettleView(
        unit,
        used,
        leftOut,
        SettleHistory.of(file, used.stream().map(RunSummary::id).toList(), wanted).lines());
  }
}
