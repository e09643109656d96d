package cardproof.timing.pace;

import cardproof.log.SettleSink;
import java.util.HashMap;
import java.util.Map;

/** Of each vector of a run the line that settled last. */
final class SlowestOfVector implements SettleSink {
  private final Map<Long, Last> last = new HashMap<>();

  /**
   * What settled last.
   *
   * @param line index over the card, as the run named it
   * @param us from the drive change; infinite where it was not seen to settle
   */
  record Last(int line, boolean endsHigh, double us) {}

  @Override
  public void accept(int line, boolean endsHigh, long vector, long lastUs, boolean censored) {
    double us = censored ? Double.POSITIVE_INFINITY : lastUs;
    Last so = last.get(vector);
    if (so == null || us > so.us()) {
      last.put(vector, new Last(line, endsHigh, us));
    }
  }

  /** By number of the vector; those in which nothing of the card's own moved are not there. */
  Map<Long, Last> byVector() {
    return last;
  }
}
