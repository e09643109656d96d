package cardproof.timing.pace;

import cardproof.log.LineName;
import cardproof.timing.stats.OrderBound;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;

/**
 * How long a card took in one transition until its last line had settled, over some runs. Bounds go
 * by order statistics: S. S. Wilks, "Determination of sample sizes for setting tolerance limits"
 * (Annals of Mathematical Statistics 12, 1941). They speak of runs like these.
 *
 * @param transition its name
 * @param run the run with the longest time
 * @param vector the vector of it, from 0
 * @param line the line that settled last there
 * @param endsHigh its direction
 * @param runs by run, in the order they were read
 * @param timesUs all times, rising; infinite where the card was not seen to settle
 */
public record PacedTransition(
    long transition,
    long run,
    long vector,
    LineName line,
    boolean endsHigh,
    List<RunRepeats> runs,
    double[] timesUs) {
  /** Of every bound. */
  public static final double CONFIDENCE = 0.95;

  public PacedTransition {
    runs = List.copyOf(runs);
  }

  /** How many times there are. */
  public int n() {
    return timesUs.length;
  }

  /** The longest; infinite where the card was not seen to settle. */
  public double largestUs() {
    return timesUs[timesUs.length - 1];
  }

  /** How often the card was not seen to settle. */
  public int unsettled() {
    int settled = timesUs.length;
    while (settled > 0 && Double.isInfinite(timesUs[settled - 1])) {
      settled--;
    }
    return timesUs.length - settled;
  }

  /**
   * A time that this share of settles keeps to, as sure as {@link #CONFIDENCE}; empty where there
   * are too few, or where it would be one that was not seen to settle.
   */
  public OptionalDouble boundUs(double share) {
    OptionalInt rank = OrderBound.rank(n(), share, CONFIDENCE);
    if (rank.isEmpty() || Double.isInfinite(timesUs[n() - rank.getAsInt()])) {
      return OptionalDouble.empty();
    }
    return OptionalDouble.of(timesUs[n() - rank.getAsInt()]);
  }

  /** Runs with so many repeats that their longest bounds this share of their settles. */
  public int boundedRuns(double share) {
    int wanted = OrderBound.smallestCount(1, share, CONFIDENCE);
    return (int) runs.stream().filter(run -> run.n() >= wanted).count();
  }
}
