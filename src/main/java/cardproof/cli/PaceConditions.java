package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.PowerOn;
import cardproof.log.VectorRecord;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;

/**
 * Under what settle times were measured.
 *
 * @param lowestRailMv of the supply, where it was measured
 * @param longestPoweredUs since the power came on, as far as that is known
 * @param longer whether it may have been on for longer than that
 */
record PaceConditions(OptionalInt lowestRailMv, long longestPoweredUs, boolean longer) {
  private static final double US_PER_MINUTE = 60e6;

  static PaceConditions of(BenchLog log, List<Long> runs) {
    Reading reading = new Reading();
    runs.forEach(run -> reading.read(log, run));
    return new PaceConditions(
        reading.lowestRailMv == Integer.MAX_VALUE
            ? OptionalInt.empty()
            : OptionalInt.of(reading.lowestRailMv),
        reading.longestUs,
        reading.longer);
  }

  /** {@code with the power on for up to 2.3 min, the supply at 11.8 V or more}. */
  String words() {
    String powered =
        String.format(
            Locale.ROOT,
            "with the power on for up to %.1f min%s",
            longestPoweredUs / US_PER_MINUTE,
            longer ? " that are known of" : "");
    return powered
        + (lowestRailMv.isPresent()
            ? String.format(
                Locale.ROOT, ", the supply at %.2f V or more", lowestRailMv.getAsInt() / 1e3)
            : "; the supply was not measured");
  }

  /** While runs are read. */
  private static final class Reading {
    private int lowestRailMv = Integer.MAX_VALUE;
    private long longestUs;
    private boolean longer;

    void read(BenchLog log, long run) {
      Deque<PowerOn> powerOns = new ArrayDeque<>(log.powerOns(run));
      longer |= powerOns.stream().anyMatch(power -> !power.how().isNewPower());
      long[] sinceUs = new long[1];
      log.forEachVector(
          run,
          vector -> {
            while (!powerOns.isEmpty() && powerOns.peek().vector() <= vector.number()) {
              powerOns.remove();
              sinceUs[0] = vector.startUs();
            }
            take(vector, sinceUs[0]);
          });
    }

    private void take(VectorRecord vector, long sinceUs) {
      longestUs = Math.max(longestUs, vector.startUs() + vector.durationUs() - sinceUs);
      vector
          .supply()
          .lowestRailMv()
          .ifPresent(mv -> lowestRailMv = mv > 0 ? Math.min(lowestRailMv, mv) : lowestRailMv);
    }
  }
}
