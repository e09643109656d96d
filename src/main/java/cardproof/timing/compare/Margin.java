package cardproof.timing.compare;

import java.util.OptionalDouble;
import org.apache.commons.statistics.distribution.TDistribution;

/**
 * What a shift has to exceed before it is told as a change, since runs differ by more than noise:
 * the largest of half a millisecond, two sampling periods, and 2.5 times the spread seen between
 * runs of the unit to which nothing was done; of the line itself or of all lines, whichever is
 * more, for a line behind a long chain gathers what all its relays differ by. The factor is about
 * what Student's distribution asks for with three runs on either side; with fewer it asks for more.
 * Where no two runs are alike there is no margin, and no change can be told. Our own rule, proved
 * by simulation in the tests.
 */
final class Margin {
  private static final double LEAST_US = 500;
  private static final double PERIODS = 2;
  private static final double SPREADS = 2.5;

  /**
   * How often one line may lie beyond its margin by chance; with it a comparison keeps to 3.8 %.
   */
  static final double BY_CHANCE = 0.02;

  private final double leastUs;
  private final double student;
  private final RunSpread spread;

  private Margin(double leastUs, double student, RunSpread spread) {
    this.leastUs = leastUs;
    this.student = student;
    this.spread = spread;
  }

  /**
   * The margin for so many runs.
   *
   * @param before how many runs there are on one side
   * @param after and on the other
   */
  static Margin of(long samplingNs, RunSpread spread, int before, int after) {
    double leastUs = Math.max(LEAST_US, PERIODS * samplingNs / 1_000);
    double student =
        spread.degrees() == 0
            ? Double.POSITIVE_INFINITY
            : TDistribution.of(spread.degrees()).inverseSurvivalProbability(BY_CHANCE / 2)
                * Math.sqrt(1.0 / before + 1.0 / after);
    return new Margin(leastUs, student, spread);
  }

  /** Whether how much runs differ is known. */
  boolean isKnown() {
    return spread.degrees() > 0;
  }

  /** Of one line and direction, microseconds; infinite where how much runs differ is not known. */
  double us(Way way) {
    return isKnown()
        ? Math.max(leastUs, Math.max(SPREADS, student) * ofRunsUs(way))
        : Double.POSITIVE_INFINITY;
  }

  /**
   * By how much the two sides may differ only because they are different runs, microseconds either
   * way; all but {@link #BY_CHANCE} of the time it is no more. Infinite where that is not known.
   */
  double runsUs(Way way) {
    return isKnown() ? student * ofRunsUs(way) : Double.POSITIVE_INFINITY;
  }

  private double ofRunsUs(Way way) {
    return Math.max(spread.us(way), spread.us().orElseThrow());
  }

  /** Standard deviation between runs to which nothing was done, all lines together. */
  OptionalDouble spreadUs() {
    return spread.us();
  }
}
