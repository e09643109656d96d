package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.RunFilter;
import cardproof.log.UnitId;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Compares runs before and after. */
@Command(
    name = "compare",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description = {
      "Compares runs of a card before and after a rework: vectors whose verdict changed, and lines that"
          + " got slower or faster.",
      "Runs differ though nothing was done, with warmth and supply. A change of settle times is told"
          + " only where its whole interval lies beyond a margin made from how much runs differ; three"
          + " runs on either side make that known."
    },
    footerHeading = "%nExample:%n",
    footer = {
      "  cardproof compare 3 7 --log vectors/sum",
      "  cardproof compare --rework --log vectors/sum --card sum --unit 03",
      "  cardproof compare --rework --log vectors/sum --unit 03 --untouched CO"
    })
final class CompareCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(
      paramLabel = "RUN",
      arity = "0..2",
      description = "numbers of two runs, the earlier one first")
  private List<Long> runs = new ArrayList<>();

  @Option(
      names = "--log",
      paramLabel = "LOG",
      defaultValue = ".",
      description = "bench log, or the folder it lies in (default: this folder)")
  private Path place;

  @Mixin private UnitOptions unitOptions;

  @Option(
      names = "--rework",
      paramLabel = "N",
      arity = "0..1",
      fallbackValue = "1",
      description =
          "the runs before and after the latest rework of the unit; with N the N-th from the last")
  private Optional<Integer> rework = Optional.empty();

  @Option(
      names = "--untouched",
      paramLabel = "LINE",
      description =
          "a line that what was done cannot have touched: what such lines moved by is taken off all;"
              + " may be given again")
  private List<String> untouched = new ArrayList<>();

  @ArgGroup private Form form = new Form();

  private static final class Form {
    @Option(
        names = "--csv",
        description = "a row a line and direction (CSV), times in microseconds")
    private boolean csv;

    @Option(names = "--json", description = "one JSON object")
    private boolean json;
  }

  @Override
  public Integer call() {
    if (rework.isPresent() == !runs.isEmpty() || rework.isEmpty() && runs.size() != 2) {
      throw new ParameterException(
          spec.commandLine(), "wanted the numbers of two runs, or --rework, and not both");
    }
    if (rework.filter(back -> back < 1).isPresent()) {
      throw new ParameterException(spec.commandLine(), "--rework counts from 1, the latest");
    }
    Screen screen = Screen.of(spec.commandLine());
    Path file = BenchLogs.in(place);
    try (BenchLog log = BenchLog.openForReading(file)) {
      CompareView view =
          CompareView.of(
              log,
              sides(log, file),
              lines -> untouched.isEmpty() ? line -> false : LineChoice.of(untouched, lines, file));
      if (form.csv) {
        CompareCsv.print(view, screen.out());
      } else if (form.json) {
        CompareJson.print(view, log, screen.out());
      } else {
        new ComparePage(view, log, screen).print();
      }
      screen.out().flush();
      return view.isWorse() ? ExitCode.FAILED : ExitCode.PASSED;
    }
  }

  private CompareSides sides(BenchLog log, Path file) {
    if (rework.isEmpty()) {
      return CompareSides.ofRuns(log, file, runs.get(0), runs.get(1));
    }
    UnitId unit = unitOptions.choose(log, file);
    return CompareSides.ofRework(log, file, unit, log.runs(RunFilter.of(unit)), rework.get());
  }
}
