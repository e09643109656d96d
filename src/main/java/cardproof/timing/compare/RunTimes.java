package cardproof.timing.compare;

import cardproof.log.BenchLog;
import cardproof.log.LineName;
import cardproof.log.RunTransitions;
import cardproof.timing.LineSettles;
import cardproof.timing.RunSettles;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The settle times of some runs by line, direction and transition, microseconds. A censored time is
 * infinite: it took longer than was watched.
 */
final class RunTimes {
  private final Map<Way, Map<Long, List<Double>>> times = new LinkedHashMap<>();
  private final Map<Way, LineName> names = new LinkedHashMap<>();

  static RunTimes of(BenchLog log, List<Long> runs) {
    RunTimes all = new RunTimes();
    runs.forEach(run -> RunSettles.forEach(log, run, all::add));
    return all;
  }

  private void add(LineSettles settles) {
    for (int i = 0; i < settles.count(); i++) {
      if (settles.transition(i) != RunTransitions.UNKNOWN) {
        add(
            settles.line(),
            settles.endsHigh(),
            settles.transition(i),
            settles.censored(i) ? Double.POSITIVE_INFINITY : settles.settleUs(i));
      }
    }
  }

  /** Takes one time; infinite for one that was censored. */
  void add(LineName line, boolean endsHigh, long transition, double us) {
    Way way = new Way(line.bus(), line.bit(), endsHigh);
    names.putIfAbsent(way, line);
    times
        .computeIfAbsent(way, w -> new HashMap<>())
        .computeIfAbsent(transition, t -> new ArrayList<>())
        .add(us);
  }

  /** Lines and directions, in the card's order. */
  Map<Way, LineName> ways() {
    return names;
  }

  /** The median of the repeats of each transition; empty where the line never moved so. */
  Map<Long, Double> medians(Way way) {
    Map<Long, Double> medians = new HashMap<>();
    times
        .getOrDefault(way, Map.of())
        .forEach((transition, repeats) -> medians.put(transition, median(repeats)));
    return medians;
  }

  /** Of an even count the mean of the two in the middle; infinite as soon as one of them is. */
  static double median(List<Double> values) {
    double[] sorted = values.stream().mapToDouble(Double::doubleValue).sorted().toArray();
    int middle = sorted.length / 2;
    return sorted.length % 2 == 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
  }
}
