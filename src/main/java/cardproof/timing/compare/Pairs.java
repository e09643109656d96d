package cardproof.timing.compare;

import cardproof.log.LineName;
import java.util.Arrays;
import java.util.Map;
import java.util.TreeSet;

/**
 * The transitions of one line and direction that both sides have.
 *
 * @param line as the later runs name it
 * @param differencesUs after less before
 * @param unsettledBefore transitions left out because the line did not settle in half of the
 *     repeats
 * @param unsettledAfter the same after
 */
record Pairs(LineName line, double[] differencesUs, int unsettledBefore, int unsettledAfter) {
  static Pairs of(LineName line, Map<Long, Double> before, Map<Long, Double> after) {
    TreeSet<Long> common = new TreeSet<>(before.keySet());
    common.retainAll(after.keySet());
    int unsettledBefore = 0;
    int unsettledAfter = 0;
    double[] differencesUs = new double[common.size()];
    int n = 0;
    for (long transition : common) {
      double was = before.get(transition);
      double is = after.get(transition);
      unsettledBefore += Double.isInfinite(was) ? 1 : 0;
      unsettledAfter += Double.isInfinite(is) ? 1 : 0;
      if (Double.isFinite(was) && Double.isFinite(is)) {
        differencesUs[n++] = is - was;
      }
    }
    return new Pairs(line, Arrays.copyOf(differencesUs, n), unsettledBefore, unsettledAfter);
  }

  int n() {
    return differencesUs.length;
  }
}
