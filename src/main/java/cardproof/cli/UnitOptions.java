package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.RunFilter;
import cardproof.log.RunSummary;
import cardproof.log.UnitId;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Which unit of which bench log is meant; the only one there is need not be named. */
final class UnitOptions {
  private static final int NAMED = 8;

  @Parameters(
      paramLabel = "LOG",
      arity = "0..1",
      defaultValue = ".",
      description = "bench log, or the folder it lies in (default: this folder)")
  private Path place;

  @Option(names = "--card", paramLabel = "NAME", description = "of this card")
  private Optional<String> card = Optional.empty();

  @Option(names = "--unit", paramLabel = "NAME", description = "of this unit of the card")
  private Optional<String> unit = Optional.empty();

  @Option(names = "--simulated", description = "of units on the simulated bench, not real ones")
  private boolean simulated;

  /** The bench log. */
  Path file() {
    return BenchLogs.in(place);
  }

  /**
   * The unit that is meant.
   *
   * @throws RefusedException when there is none, or more than one
   */
  UnitId choose(BenchLog log) {
    List<UnitId> units = units(log, simulated);
    if (units.size() == 1) {
      return units.get(0);
    }
    if (units.isEmpty()) {
      boolean elsewhere = !units(log, !simulated).isEmpty();
      throw new RefusedException(
          new Problem(
              file().toString(),
              "there is no run of " + asked(),
              "a unit that has been run here",
              !elsewhere
                  ? "'cardproof log' lists them, with --simulated those of the simulated bench"
                  : simulated
                      ? "Leave --simulated out for the real unit of that name"
                      : "Add --simulated for units of the simulated bench"));
    }
    throw new RefusedException(
        new Problem(
            file().toString(),
            "there are runs of " + units.size() + " units, " + named(units),
            "one of them",
            "Name it with --card and --unit"));
  }

  private List<UnitId> units(BenchLog log, boolean ofBench) {
    RunFilter all =
        RunFilter.real().bench(ofBench ? RunFilter.Bench.SIMULATED : RunFilter.Bench.REAL);
    RunFilter ofCard = card.map(all::card).orElse(all);
    return log.runs(unit.map(ofCard::unit).orElse(ofCard)).stream()
        .map(RunSummary::unit)
        .distinct()
        .toList();
  }

  private String asked() {
    return (simulated ? "a simulated unit" : "a real unit")
        + unit.map(name -> " " + name).orElse("")
        + card.map(name -> " of card " + name).orElse("");
  }

  private static String named(List<UnitId> units) {
    String names =
        units.stream().limit(NAMED).map(UnitId::toString).collect(Collectors.joining(", "));
    return units.size() > NAMED ? names + " and more" : names;
  }
}
