package cardproof.timing.drift;

import cardproof.log.BenchLog;
import cardproof.log.LineName;
import cardproof.log.RunTransitions;
import cardproof.timing.LineSettles;
import cardproof.timing.RunSettles;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Reads the probes of a unit's runs. A transition counts in a run that has it often enough; the
 * probe of a line and direction is the transition that counts in most runs, the slowest of several.
 */
public final class SeriesReading {
  /** Repeats in a run from which their median is worth keeping; our judgement. */
  public static final int LEAST_REPEATS = 20;

  private record Way(String bus, int bit, boolean endsHigh) {}

  private record Candidate(LineName line, long transition, long vector, List<Point> points) {}

  private final Map<Way, Map<Long, Candidate>> candidates = new LinkedHashMap<>();

  private SeriesReading() {}

  /**
   * Reads runs.
   *
   * @param runs ids, the oldest first; none whose times are void
   * @return by line and direction, in the card's order; none for those without any probe
   */
  public static List<Series> of(BenchLog log, List<Long> runs) {
    SeriesReading reading = new SeriesReading();
    runs.forEach(run -> RunSettles.forEach(log, run, settles -> reading.take(run, settles)));
    List<Series> all = new ArrayList<>();
    reading.candidates.forEach(
        (way, byTransition) -> probe(byTransition).ifPresent(c -> all.add(series(way, c))));
    return all;
  }

  private static Optional<Candidate> probe(Map<Long, Candidate> byTransition) {
    return byTransition.values().stream()
        .max(
            Comparator.<Candidate>comparingInt(c -> c.points().size())
                .thenComparingDouble(c -> c.points().get(0).medianUs())
                .thenComparingLong(Candidate::transition));
  }

  private static Series series(Way way, Candidate probe) {
    return new Series(
        probe.line(), way.endsHigh(), probe.transition(), probe.vector(), probe.points());
  }

  private void take(long run, LineSettles settles) {
    Map<Long, List<Double>> repeats = new HashMap<>();
    Map<Long, Long> vectors = new HashMap<>();
    for (int i = 0; i < settles.count(); i++) {
      if (settles.transition(i) != RunTransitions.UNKNOWN && !settles.censored(i)) {
        repeats
            .computeIfAbsent(settles.transition(i), t -> new ArrayList<>())
            .add((double) settles.settleUs(i));
        vectors.put(settles.transition(i), settles.vector(i));
      }
    }
    LineName line = settles.line();
    Way way = new Way(line.bus(), line.bit(), settles.endsHigh());
    repeats.forEach(
        (transition, times) -> {
          if (times.size() >= LEAST_REPEATS) {
            Map<Long, Candidate> of = candidates.computeIfAbsent(way, w -> new HashMap<>());
            List<Point> points = new ArrayList<>();
            if (of.containsKey(transition)) {
              points.addAll(of.get(transition).points());
            }
            points.add(new Point(run, times.size(), median(times)));
            of.put(transition, new Candidate(line, transition, vectors.get(transition), points));
          }
        });
  }

  private static double median(List<Double> values) {
    double[] sorted = values.stream().mapToDouble(Double::doubleValue).sorted().toArray();
    int middle = sorted.length / 2;
    return sorted.length % 2 == 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
  }
}
