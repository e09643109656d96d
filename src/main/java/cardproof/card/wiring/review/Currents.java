package cardproof.card.wiring.review;

import cardproof.card.wiring.Lamp;
import java.util.OptionalDouble;

/**
 * What the card may draw, in milliamps at its supply.
 *
 * @param coils all coils held at once: a bound, no state need do it
 * @param lamps all lamps lit
 * @param others all resistors across the supply
 * @param atRest what flows with nothing driven; empty where the relays do not come to rest
 */
public record Currents(double coils, double lamps, double others, OptionalDouble atRest) {
  /** Never more than this: every coil, lamp and resistor across the supply at once. */
  public double most() {
    return coils + lamps + others;
  }

  static Currents of(Circuit circuit, long supplyMillivolts, OptionalDouble atRest) {
    double coils = 0;
    double lamps = 0;
    double others = 0;
    for (Load load : circuit.loads()) {
      double milliamps = load.milliamps(supplyMillivolts);
      if (load.isCoil()) {
        coils += milliamps;
      } else if (load.part() instanceof Lamp) {
        lamps += milliamps;
      } else {
        others += milliamps;
      }
    }
    return new Currents(coils, lamps, others, atRest);
  }
}
