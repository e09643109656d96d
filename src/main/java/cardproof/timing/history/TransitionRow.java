package cardproof.timing.history;

import cardproof.timing.SettleTimes;
import java.util.Optional;

/**
 * What one line did in one transition over the runs read.
 *
 * @param transition its name, the same in every log
 * @param run a run that has this transition
 * @param vector the first vector of it in that run
 * @param times the measured ones, microseconds; empty where every one is censored
 * @param censored how often the line was still moving when watching ended: those took longer than
 *     was watched and are in none of {@code times}
 */
public record TransitionRow(
    long transition, long run, long vector, Optional<SettleTimes> times, int censored) {
  /** How often the line moved so, censored ones among them. */
  public int n() {
    return censored + times.map(SettleTimes::n).orElse(0);
  }

  /** The slowest known, microseconds; a censored one beats every other. */
  public double slowestUs() {
    return censored > 0
        ? Double.POSITIVE_INFINITY
        : times.map(SettleTimes::maxUs).orElse(Double.NEGATIVE_INFINITY);
  }
}
