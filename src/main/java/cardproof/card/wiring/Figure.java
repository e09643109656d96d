package cardproof.card.wiring;

/**
 * A time from a data sheet, with what units and operations may make of it.
 *
 * @param nominalUs what the sheet states: typical, or most
 * @param leastUs shortest that a sound relay shows
 * @param mostUs longest
 */
public record Figure(long nominalUs, long leastUs, long mostUs) {
  private static final int TYPICAL_SPREAD_PERCENT = 20;
  private static final int LEAST_OF_MOST_PERCENT = 60;

  public Figure {
    if (leastUs < 0 || leastUs > nominalUs || nominalUs > mostUs) {
      throw new IllegalArgumentException(leastUs + " to " + mostUs + " us, nominal " + nominalUs);
    }
  }

  /** Stated as typical: a fifth more or less is taken as sound. */
  public static Figure typical(long us) {
    return new Figure(
        us, us * (100 - TYPICAL_SPREAD_PERCENT) / 100, us * (100 + TYPICAL_SPREAD_PERCENT) / 100);
  }

  /** Stated as the most: sound relays are taken to lie between 60 % of it and all of it. */
  public static Figure most(long us) {
    return new Figure(us, us * LEAST_OF_MOST_PERCENT / 100, us);
  }
}
