package cardproof.timing.compare;

import java.util.OptionalDouble;
import org.apache.commons.statistics.distribution.TDistribution;

/**
 * What a shift has to exceed before it is told as a change, since runs differ by more than noise:
 * the largest of half a millisecond, two sampling periods, and 2.5 times the spread seen between
 * runs of the unit to which nothing was done. The factor is what Student's distribution asks for
 * with three runs on either side; with fewer it asks for more. Where no two runs are alike there is
 * no margin, and no change can be told. Our own rule, proved by simulation in the tests.
 *
 * @param us microseconds; infinite where how much runs differ is not known
 * @param spreadUs standard deviation between such runs; empty where no two of them are there
 */
public record Margin(double us, OptionalDouble spreadUs) {
  private static final double LEAST_US = 500;
  private static final double PERIODS = 2;
  private static final double SPREADS = 2.5;

  /** Of comparisons of a card to which nothing was done, those that tell of a change. */
  private static final double FALSE_ALARMS = 0.038;

  /**
   * The margin for so many runs.
   *
   * @param before how many runs there are on one side
   * @param after and on the other
   */
  static Margin of(long samplingNs, RunSpread spread, int before, int after) {
    if (spread.degrees() == 0) {
      return new Margin(Double.POSITIVE_INFINITY, OptionalDouble.empty());
    }
    double spreadUs = spread.us().orElseThrow();
    double student =
        TDistribution.of(spread.degrees()).inverseSurvivalProbability(FALSE_ALARMS / 2)
            * Math.sqrt(1.0 / before + 1.0 / after);
    double us = Math.max(LEAST_US, PERIODS * samplingNs / 1_000);
    return new Margin(
        Math.max(us, Math.max(SPREADS, student) * spreadUs), OptionalDouble.of(spreadUs));
  }

  /** Whether how much runs differ is known. */
  public boolean isKnown() {
    return spreadUs.isPresent();
  }
}
