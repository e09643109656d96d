package cardproof.sim.circuit;

import cardproof.card.Supply;

/**
 * A bench supply with a current limit: it holds its voltage until more than the limit would flow,
 * and then lets it go down to what the limit allows. Not thread safe.
 */
final class SupplyRail {
  private static final double MILLI = 1e3;
  private static final double NANO_PER_MILLI = 1e6;
  private static final double FINE_ENOUGH = 0.0005;
  private static final int MOST_ROUNDS = 12;

  private final double nominal;
  private final double limitNanoamps;
  private boolean limiting;
  private long limited;
  private int rounds;

  SupplyRail(Supply supply) {
    nominal = supply.millivolts() / MILLI;
    limitNanoamps = supply.limitMilliamps() * NANO_PER_MILLI;
  }

  /** How often it came to its limit. */
  long limited() {
    return limited;
  }

  /** It is switched: what it did before is over. */
  void restart() {
    limiting = false;
    rounds = 0;
  }

  /**
   * Moves the supply of the nets to where it would stand.
   *
   * @return whether that is somewhere else, so that the levels have to be worked out again
   */
  boolean adjust(Nets nets, long totalNanoamps, boolean off) {
    double now = nets.supply();
    double wanted = nominal;
    if (off || now <= 0) {
      return false;
    }
    if (totalNanoamps * (nominal / now) > limitNanoamps) {
      wanted = now * limitNanoamps / totalNanoamps;
    }
    if (Math.abs(wanted - now) <= FINE_ENOUGH * nominal || rounds == MOST_ROUNDS) {
      rounds = 0;
      limited += now < nominal && !limiting ? 1 : 0;
      limiting = now < nominal;
      return false;
    }
    rounds++;
    nets.setSupply(wanted);
    return true;
  }
}
