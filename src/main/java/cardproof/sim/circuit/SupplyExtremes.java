package cardproof.sim.circuit;

import cardproof.card.Supply;

/**
 * How low a supply went and how much it gave, at most. A dead short takes it to nothing at its
 * limit, for as long as it lasts. Not thread safe.
 */
final class SupplyExtremes {
  private static final double MILLI = 1e3;
  private static final long NANO_PER_MILLI = 1_000_000;

  private final long limitNanoamps;
  private double lowestVolts;
  private long highestNanoamps;

  SupplyExtremes(Supply supply) {
    limitNanoamps = supply.limitMilliamps() * NANO_PER_MILLI;
    lowestVolts = supply.millivolts() / MILLI;
  }

  void restart(double volts, long nanoamps, boolean shorted) {
    lowestVolts = volts;
    highestNanoamps = nanoamps;
    take(volts, nanoamps, shorted);
  }

  void take(double volts, long nanoamps, boolean shorted) {
    lowestVolts = Math.min(lowestVolts, shorted ? 0 : volts);
    highestNanoamps = Math.max(highestNanoamps, shorted ? limitNanoamps : nanoamps);
  }

  long lowestMillivolts() {
    return Math.round(lowestVolts * MILLI);
  }

  long highestNanoamps() {
    return highestNanoamps;
  }
}
