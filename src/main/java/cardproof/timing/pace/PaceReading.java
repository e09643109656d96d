package cardproof.timing.pace;

import cardproof.log.BenchLog;
import cardproof.log.LineName;
import cardproof.log.RunTransitions;
import cardproof.timing.stats.OrderBound;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Reads how long a card took, transition by transition, from runs of one unit. */
public final class PaceReading {
  private PaceReading() {}

  /**
   * The transitions in which the card moved, the slowest first.
   *
   * @param runs their ids; none whose times are void
   */
  public static List<PacedTransition> of(BenchLog log, List<Long> runs) {
    Map<Long, Gathering> gathering = new HashMap<>();
    for (long run : runs) {
      RunTransitions transitions = log.transitions(run);
      SlowestOfVector slowest = new SlowestOfVector();
      log.forEachSettle(run, slowest);
      List<LineName> lines = log.lines(run);
      slowest
          .byVector()
          .forEach(
              (vector, last) -> {
                long name = transitions.of(vector);
                if (name != RunTransitions.UNKNOWN) {
                  gathering
                      .computeIfAbsent(name, Gathering::new)
                      .take(run, vector, lines.get(last.line()), last);
                }
              });
    }
    return gathering.values().stream()
        .map(Gathering::done)
        .sorted(
            Comparator.comparingDouble(PacedTransition::largestUs)
                .reversed()
                .thenComparing(PacedTransition::transition))
        .toList();
  }

  /**
   * The share of future runs whose longest time the longest of so many runs is above, as sure as
   * {@link PacedTransition#CONFIDENCE}: 0.55 for 5 runs, 0.95 for 59.
   */
  public static double shareOfFutureRuns(int runs) {
    return OrderBound.coverage(runs, 1, PacedTransition.CONFIDENCE);
  }

  /** How many repeats in a run make its longest a bound of this share of its settles. */
  public static int repeatsFor(double share) {
    return OrderBound.smallestCount(1, share, PacedTransition.CONFIDENCE);
  }

  /** One transition while runs are read. */
  private static final class Gathering {
    private final long transition;
    private final List<Double> timesUs = new ArrayList<>();
    private final List<RunRepeats> runs = new ArrayList<>();
    private long slowestRun;
    private long slowestVector;
    private LineName line;
    private boolean endsHigh;
    private double largestUs = -1;

    Gathering(long transition) {
      this.transition = transition;
    }

    void take(long run, long vector, LineName of, SlowestOfVector.Last last) {
      timesUs.add(last.us());
      int at = runs.size() - 1;
      if (at >= 0 && runs.get(at).run() == run) {
        RunRepeats so = runs.get(at);
        runs.set(at, new RunRepeats(run, so.n() + 1, Math.max(so.largestUs(), last.us())));
      } else {
        runs.add(new RunRepeats(run, 1, last.us()));
      }
      if (last.us() > largestUs) {
        largestUs = last.us();
        slowestRun = run;
        slowestVector = vector;
        line = of;
        endsHigh = last.endsHigh();
      }
    }

    PacedTransition done() {
      double[] rising = timesUs.stream().mapToDouble(Double::doubleValue).toArray();
      Arrays.sort(rising);
      return new PacedTransition(
          transition, slowestRun, slowestVector, line, endsHigh, runs, rising);
    }
  }
}
