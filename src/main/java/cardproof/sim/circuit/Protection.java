package cardproof.sim.circuit;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/**
 * What cuts a card off: the supply, which a short that lasts trips for good, and the fuses. A fuse
 * on the way of such a short opens with it. A fuse also opens when more than its rating flows for
 * long: it gains heat by the square of the current over its rating, less 1, and opens at {@link
 * #HEAT_SECONDS}: at twice its rating after 3.3 s. Not thread safe.
 */
final class Protection {
  static final long SHORT_NS = 2_000_000;
  static final double HEAT_SECONDS = 10;
  private static final double NANO = 1e9;
  private static final double NANO_PER_MILLI = 1e6;

  private final Elements parts;
  private final boolean[] closed;
  private final FuseMeter meter;
  private final BitSet blown = new BitSet();
  private final List<String> blownNames = new ArrayList<>();
  private final double[] heat;
  private final double[] gain;
  private final double leastRatingNanoamps;
  private long measuredNs;
  private boolean warm;
  private long shortSinceNs = TimedHeap.NEVER;
  private long fuseDueNs = TimedHeap.NEVER;
  private boolean tripped;
  private boolean powered = true;
  private long glitches;

  Protection(Elements parts, boolean[] closed) {
    this.parts = parts;
    this.closed = closed;
    this.meter = new FuseMeter(parts);
    this.heat = new double[parts.fuses.size()];
    this.gain = new double[parts.fuses.size()];
    this.leastRatingNanoamps =
        NANO_PER_MILLI
            * parts.fuses.stream().mapToLong(fuse -> fuse.milliamps()).min().orElse(Long.MAX_VALUE);
  }

  /** The supply is switched: a short begins anew with it, and a trip is over. */
  void power(boolean on) {
    powered = on;
    tripped &= !on;
    shortSinceNs = TimedHeap.NEVER;
  }

  boolean tripped() {
    return tripped;
  }

  long glitches() {
    return glitches;
  }

  BitSet blown() {
    return blown;
  }

  List<String> blownNames() {
    return blownNames;
  }

  long nextNs() {
    long shortDueNs = shortSinceNs == TimedHeap.NEVER ? TimedHeap.NEVER : shortSinceNs + SHORT_NS;
    return Math.min(shortDueNs, fuseDueNs);
  }

  /** The card has changed. */
  void watch(long nowNs, Nets nets, long nanoamps) {
    if (tripped || !powered) {
      return;
    }
    if (nets.shorts > 0 && shortSinceNs == TimedHeap.NEVER) {
      shortSinceNs = nowNs;
    } else if (nets.shorts == 0 && shortSinceNs != TimedHeap.NEVER) {
      shortSinceNs = TimedHeap.NEVER;
      glitches++;
    }
    if (warm || nanoamps > leastRatingNanoamps) {
      measure(nowNs, nets, nanoamps);
    }
  }

  private void measure(long nowNs, Nets nets, long nanoamps) {
    collectHeat(nowNs);
    boolean much = nanoamps > leastRatingNanoamps && nets.shorts == 0;
    double[] amps = much ? meter.amps(nets, blown) : new double[parts.fuses.size()];
    fuseDueNs = TimedHeap.NEVER;
    warm = false;
    for (int f = 0; f < gain.length; f++) {
      double part = amps[f] * 1000 / parts.fuses.get(f).milliamps();
      gain[f] = part * part - 1;
      warm |= gain[f] > 0 || heat[f] > 0;
      if (gain[f] > 0) {
        long leftNs = (long) Math.ceil(NANO * Math.max(0, HEAT_SECONDS - heat[f]) / gain[f]);
        fuseDueNs = Math.min(fuseDueNs, nowNs + Math.max(1, leftNs));
      }
    }
  }

  private void collectHeat(long nowNs) {
    for (int f = 0; warm && f < gain.length; f++) {
      heat[f] = Math.max(0, heat[f] + gain[f] * (nowNs - measuredNs) / NANO);
    }
    measuredNs = nowNs;
  }

  /**
   * What was due happens.
   *
   * @return whether a fuse has opened
   */
  boolean fire(long nowNs) {
    BitSet opening = new BitSet();
    if (shortSinceNs != TimedHeap.NEVER && nowNs >= shortSinceNs + SHORT_NS) {
      tripped = true;
      shortSinceNs = TimedHeap.NEVER;
      fuseDueNs = TimedHeap.NEVER;
      opening = ShortPath.fuses(parts, closed, blown);
    } else {
      collectHeat(nowNs);
      fuseDueNs = TimedHeap.NEVER;
      for (int f = 0; f < gain.length; f++) {
        opening.set(f, heat[f] >= HEAT_SECONDS - 1e-6 && !blown.get(f));
      }
    }
    opening.stream().forEach(f -> blownNames.add(parts.fuses.get(f).name()));
    blown.or(opening);
    return !opening.isEmpty();
  }
}
