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
  private double squares;
  private int shifts;
  private int degrees;

  /** Takes runs between which nothing was done; a single one tells nothing. */
  void add(List<RunTimes> alike) {
    if (alike.size() < 2) {
      return;
    }
    degrees += alike.size() - 1;
    for (Way way : alike.get(0).ways().keySet()) {
      List<Map<Long, Double>> medians = alike.stream().map(run -> run.medians(way)).toList();
      List<Long> common =
          medians.get(0).keySet().stream()
              .filter(t -> medians.stream().allMatch(m -> Double.isFinite(of(m, t))))
              .toList();
      if (!common.isEmpty()) {
        add(medians, common);
      }
    }
  }

  private static double of(Map<Long, Double> medians, long transition) {
    return medians.getOrDefault(transition, Double.NaN);
  }

  private void add(List<Map<Long, Double>> medians, List<Long> common) {
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
    for (double shift : ofRuns) {
      squares += (shift - mean) * (shift - mean);
    }
    shifts += ofRuns.size() - 1;
  }

  /** Standard deviation of a run's shift, microseconds; empty where no two runs were alike. */
  OptionalDouble us() {
    return shifts == 0 ? OptionalDouble.empty() : OptionalDouble.of(Math.sqrt(squares / shifts));
  }

  /**
   * Degrees of freedom: runs less groups. What makes runs differ makes all lines differ together,
   * so that many lines tell no more of it than one.
   */
  int degrees() {
    return shifts == 0 ? 0 : degrees;
  }
}
