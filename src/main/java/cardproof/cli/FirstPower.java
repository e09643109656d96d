package cardproof.cli;

import cardproof.card.Card;
import cardproof.card.wiring.review.Currents;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;

/**
 * What the supply should show when a card is powered for the first time, and what its current limit
 * is set to: hardly more than the card draws with nothing driven, then hardly more than it ever
 * draws.
 *
 * @param restMilliamps with nothing driven; empty where the card does not come to rest
 * @param mostMilliamps with everything on: a bound
 * @param firstLimitMilliamps for first power
 * @param workingLimitMilliamps from then on, never above what the card's file allows
 */
record FirstPower(
    OptionalDouble restMilliamps,
    double mostMilliamps,
    long firstLimitMilliamps,
    long workingLimitMilliamps) {
  /** Common practice: a fifth on top, and never so little that inrush or a meter trips over it. */
  private static final double MARGIN = 1.2;

  private static final long LEAST_MARGIN_MILLIAMPS = 50;
  private static final long ROUND_MILLIAMPS = 10;

  static FirstPower of(Card card, Currents currents) {
    long allowed = card.supply().limitMilliamps();
    long working = Math.min(allowed, above(currents.most()));
    long first = Math.min(working, above(currents.atRest().orElse(0)));
    return new FirstPower(currents.atRest(), currents.most(), first, working);
  }

  private static long above(double milliamps) {
    double with = Math.max(milliamps * MARGIN, milliamps + LEAST_MARGIN_MILLIAMPS);
    return (long) Math.ceil(with / ROUND_MILLIAMPS) * ROUND_MILLIAMPS;
  }

  /** What the supply shows, and what its limit is set to, a sentence each. */
  List<String> figures() {
    return List.of(
        "with nothing driven the supply should show "
            + (restMilliamps.isPresent()
                ? milliamps(restMilliamps.getAsDouble())
                : "a current that is not known: a short, or relays that do not come to rest"),
        "with everything on it shows at most " + milliamps(mostMilliamps),
        "set its limit to "
            + milliamps(firstLimitMilliamps)
            + " for first power, and to "
            + milliamps(workingLimitMilliamps)
            + " once that was well");
  }

  /** What to look at before, in the order in which the trade does. */
  static List<String> cautions() {
    return List.of(
        "a fuse is in the supply lead",
        "the current limit is set, with the leads shorted and before the card is on them",
        "polarity is right, at the card's own pins",
        "every coil has its flyback diode, and the right way round",
        "ground goes on first and comes off last: supply, card and fixture");
  }

  static String milliamps(double milliamps) {
    return milliamps < 1_000
        ? String.format(Locale.ROOT, "%.0f mA", milliamps)
        : String.format(Locale.ROOT, "%.2f A", milliamps / 1e3);
  }
}
