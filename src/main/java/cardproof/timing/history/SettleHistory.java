package cardproof.timing.history;

import cardproof.log.BenchLog;
import cardproof.log.LineName;
import cardproof.log.RunTransitions;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import java.util.stream.IntStream;

/**
 * Settle times of runs of one unit, per transition, line and direction. Lines of different runs are
 * the same line where bus and bit are. All times are held in memory: 12 to 30 bytes each.
 */
public final class SettleHistory {
  /** Fewer runs are not worth a thread of their own. */
  private static final int LEAST_RUNS = 32;

  private final TransitionIds ids = new TransitionIds();
  private final Map<Place, LineHistory> byPlace = new LinkedHashMap<>();

  private record Place(String bus, int bit, boolean endsHigh) {}

  private SettleHistory() {}

  /**
   * Reads runs of a log, on as many threads as there are processors where runs are many.
   *
   * @param runs their ids; the first names the lines
   * @param wanted which of the watched lines
   */
  public static SettleHistory of(Path log, List<Long> runs, Predicate<LineName> wanted) {
    int parts =
        Math.max(1, Math.min(Runtime.getRuntime().availableProcessors(), runs.size() / LEAST_RUNS));
    return IntStream.range(0, parts)
        .mapToObj(p -> runs.subList(runs.size() * p / parts, runs.size() * (p + 1) / parts))
        .parallel()
        .map(part -> alone(log, part, wanted))
        .toList()
        .stream()
        .reduce(SettleHistory::with)
        .orElseThrow();
  }

  private static SettleHistory alone(Path file, List<Long> runs, Predicate<LineName> wanted) {
    SettleHistory history = new SettleHistory();
    try (BenchLog log = BenchLog.openForReading(file)) {
      runs.forEach(run -> history.read(log, run, wanted));
    }
    return history;
  }

  private void read(BenchLog log, long run, Predicate<LineName> wanted) {
    List<LineName> lines = log.lines(run);
    LineHistory[][] histories = new LineHistory[lines.size()][];
    for (LineName line : lines) {
      if (line.watched() && wanted.test(line)) {
        histories[line.line()] = new LineHistory[] {history(line, false), history(line, true)};
      }
    }
    RunTransitions transitions = log.transitions(run);
    int[] idOf = ids.of(run, transitions);
    long first = transitions.first();
    log.forEachSettle(
        run,
        (line, endsHigh, vector, lastUs, censored) -> {
          if (histories[line] != null) {
            // a run that is being written may have gone on since
            int id = vector - first < idOf.length ? idOf[(int) (vector - first)] : 0;
            histories[line][endsHigh ? 1 : 0].add(id, lastUs, censored);
          }
        });
  }

  private LineHistory history(LineName line, boolean endsHigh) {
    return byPlace.computeIfAbsent(
        new Place(line.bus(), line.bit(), endsHigh), place -> new LineHistory(line, endsHigh, ids));
  }

  /** This one, with the runs of another after its own. */
  private SettleHistory with(SettleHistory other) {
    int[] idHere = ids.take(other.ids);
    other.byPlace.forEach(
        (place, theirs) -> history(theirs.line(), theirs.endsHigh()).addAll(theirs, idHere));
    return this;
  }

  /** Lines and directions that have times, in the card's order, falling before rising. */
  public List<LineHistory> lines() {
    List<LineHistory> lines = new ArrayList<>(byPlace.values());
    lines.removeIf(line -> line.count() == 0);
    return lines;
  }
}
