package cardproof.cli;

import cardproof.files.CardFile;
import cardproof.log.BenchLog;
import cardproof.log.UnitId;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import cardproof.timing.drift.DriftWatch;
import cardproof.timing.drift.Series;
import cardproof.timing.drift.SeriesReading;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Watches the settle times of a unit over months. */
@Command(
    name = "drift",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description = {
      "Watches the settle times of a unit over its runs since its last rework.",
      "Each line and direction is watched in one transition that runs repeat at least 20 times, such as"
          + " those of the plan that pace makes. The first ten runs are the baseline. It never says how"
          + " long a relay will live."
    },
    footerHeading = "%nExample:%n",
    footer = {
      "  cardproof run vectors/sum/pace-03.yaml --unit 03",
      "  cardproof drift vectors/sum --card sum --unit 03 --card-file vectors/sum/card.yaml"
    })
final class DriftCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Mixin private LogPlace place;

  @Mixin private UnitOptions unitOptions;

  @Option(
      names = "--card-file",
      paramLabel = "FILE",
      description = "the card's file, whose wiring tells which relay the slower lines share")
  private Optional<Path> cardFile = Optional.empty();

  @ArgGroup private Form form = new Form();

  private static final class Form {
    @Option(names = "--csv", description = "every median as a table (CSV), times in microseconds")
    private boolean csv;

    @Option(names = "--json", description = "one JSON object")
    private boolean json;
  }

  @Override
  public Integer call() {
    Screen screen = Screen.of(spec.commandLine());
    Path file = place.file();
    try (BenchLog log = BenchLog.openForReading(file)) {
      UnitId unit = unitOptions.choose(log, file);
      DriftRuns runs = DriftRuns.of(log, unit);
      List<Series> series = SeriesReading.of(log, runs.used());
      DriftWatch watch = DriftWatch.of(series);
      if (watch.drifts().isEmpty()) {
        throw tooFew(file, unit, runs, series);
      }
      List<String> relays =
          cardFile
              .map(card -> WearingRelays.of(CardFile.read(card).value(), log, watch))
              .orElse(List.of());
      if (form.csv) {
        DriftTables.csv(series, screen.out());
      } else if (form.json) {
        DriftTables.json(unit, runs, watch, relays, screen.out());
      } else {
        new DriftPage(unit, runs, watch, log, screen).print(relays);
      }
      screen.out().flush();
      return watch.drifts().stream().anyMatch(drift -> drift.slower())
          ? ExitCode.FAILED
          : ExitCode.PASSED;
    }
  }

  private static RefusedException tooFew(
      Path file, UnitId unit, DriftRuns runs, List<Series> series) {
    int most = series.stream().mapToInt(each -> each.points().size()).max().orElse(0);
    return new RefusedException(
        new Problem(
            file.toString(),
            "of "
                + Plural.of(runs.all(), "run")
                + " of "
                + unit
                + " since its last rework, "
                + (most == 0 ? "none has" : "no more than " + most + " have")
                + " one transition "
                + SeriesReading.LEAST_REPEATS
                + " times"
                + (runs.voided().isEmpty()
                    ? ""
                    : "; " + Plural.of(runs.voided().size(), "run") + " left out as VOID")
                + (runs.elsewhere().isEmpty()
                    ? ""
                    : "; " + runs.elsewhere().size() + " made on another fixture"),
            "more than " + DriftWatch.BASELINE + " such runs",
            "'cardproof pace PLAN --measure' writes a plan that repeats the slowest transitions: run that"
                + " one again each time the card is on the bench"));
  }
}
