package cardproof.timing.compare;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;

/**
 * By how much the runs of one unit differ though nothing was done to it: warmth, supply, wear. For
 * each line and direction a run's shift is the median, over the transitions that all runs have, of
 * what it took there beyond the mean of the runs; the spread is the deviation of these shifts,
 * pooled over lines and groups of runs.
 */
final class RunSpread {
  private final Map<Way, double[]> squaresAndShifts = new HashMap<>();
  private int degrees;

  /** Takes runs between which nothing was done; a single one tells nothing. */
  void add(List<RunTimes> alike) {
    if (alike.size() < 2) {
      return;
    }
    boolean any = false;
    for (Way way : alike.get(0).ways().keySet()) {
      List<Map<Long, Double>> medians = alike.stream().map(run -> run.medians(way)).toList();
      List<Long> common =
          medians.get(0).keySet().stream()
              .filter(t -> medians.stream().allMatch(m -> Double.isFinite(of(m, t))))
              .toList();
      if (!common.isEmpty()) {
        add(way, medians, common);
        any = true;
      }
    }
    degrees += any ? alike.size() - 1 : 0;
  }

  private static double of(Map<Long, Double> medians, long transition) {
    return medians.getOrDefault(transition, Double.NaN);
  }

  private void add(Way way, List<Map<Long, Double>> medians, List<Long> common) {
    Map<Long, Double> means = new HashMap<>();
    for (long transition : common) {
      means.put(
          transition, medians.stream().mapToDouble(m -> m.get(transition)).average().orElseThrow());
    }
    List<Double> ofRuns = new ArrayList<>();
    for (Map<Long, Double> run : medians) {
      ofRuns.add(RunTimes.median(common.stream().map(t -> run.get(t) - means.get(t)).toList()));
    }
    double mean = ofRuns.stream().mapToDouble(Double::doubleValue).average().orElseThrow();
    double[] so = squaresAndShifts.computeIfAbsent(way, w -> new double[2]);
    for (double shift : ofRuns) {
      so[0] += (shift - mean) * (shift - mean);
    }
    so[1] += ofRuns.size() - 1;
  }

  /** Standard deviation of a run's shift, microseconds; empty where no two runs were alike. */
  OptionalDouble us() {
    double squares = squaresAndShifts.values().stream().mapToDouble(so -> so[0]).sum();
    double shifts = squaresAndShifts.values().stream().mapToDouble(so -> so[1]).sum();
    return shifts == 0 ? OptionalDouble.empty() : OptionalDouble.of(Math.sqrt(squares / shifts));
  }

  /** The same of one line and direction; 0 where it is not known. */
  double us(Way way) {
    double[] so = squaresAndShifts.get(way);
    return so == null ? 0 : Math.sqrt(so[0] / so[1]);
  }

  /**
   * Degrees of freedom: runs less groups. What makes runs differ makes all lines differ together,
   * so that many lines tell no more of it than one.
   */
  int degrees() {
    return squaresAndShifts.isEmpty() ? 0 : degrees;
  }
}
