package cardproof.timing;

import cardproof.log.LineName;
import java.util.Optional;

/**
 * What one line did in one direction.
 *
 * @param line as the run named it
 * @param endsHigh whether these are the changes that ended in 1
 * @param times the measured ones; empty where every one is censored
 * @param censored how often the line was still moving when watching ended: its time is more than
 *     was watched, so it is counted here and is in none of {@code times}, which are then too small
 */
public record SettleRow(
    LineName line, boolean endsHigh, Optional<SettleTimes> times, long censored) {
  static SettleRow of(LineSettles settles) {
    double[] measuredUs = new double[settles.count()];
    int measured = 0;
    for (int i = 0; i < settles.count(); i++) {
      if (!settles.censored(i)) {
        measuredUs[measured++] = settles.settleUs(i);
      }
    }
    return new SettleRow(
        settles.line(),
        settles.endsHigh(),
        measured == 0 ? Optional.empty() : Optional.of(SettleTimes.of(measuredUs, 0, measured)),
        settles.count() - measured);
  }

  /** {@code rising} or {@code falling}. */
  public String direction() {
    return endsHigh ? "rising" : "falling";
  }

  /** How many measured times there are. */
  public int n() {
    return times.map(SettleTimes::n).orElse(0);
  }
}
