package cardproof.card.wiring.meter;

import cardproof.card.wiring.Wiring;
import java.util.ArrayList;
import java.util.List;

/**
 * The readings to be taken on a card before it is ever powered. Resistances alone do not find a
 * diode that is the wrong way round beside a coil: a meter's ohm range stays below the 0.7 V that
 * would open it. So the card is also fed through a resistor, which a coil of relay size pulls to a
 * volt or two one way round, and its flyback diode to 0.7 V the other way.
 */
public final class PrePower {
  /** Common practice: some 10 mA at 12 V, which operates no relay and hurts no part. */
  public static final double FEED_OHMS = 1_000;

  private PrePower() {}

  /**
   * @param lineNames by line index
   * @param pins by line index
   * @param supplyMillivolts that the card is made for
   * @return of every line the reading to ground, then to supply; last that from supply to ground
   */
  public static List<Reading> of(
      Wiring wiring, List<String> lineNames, List<String> pins, long supplyMillivolts) {
    Network network = new Network(wiring);
    double volts = supplyMillivolts / 1e3;
    String supply = wiring.nets().get(wiring.supply()).name();
    List<Reading> readings = new ArrayList<>();
    for (int line = 0; line < lineNames.size(); line++) {
      int net = wiring.lineNets().get(line);
      for (int rail : new int[] {wiring.ground(), wiring.supply()}) {
        String to = wiring.nets().get(rail).name();
        readings.add(reading(network, pins.get(line), lineNames.get(line), net, rail, to, volts));
      }
    }
    readings.add(
        reading(
            network,
            wiring.powerPins().getOrDefault(wiring.supply(), supply),
            supply,
            wiring.supply(),
            wiring.ground(),
            wiring.nets().get(wiring.ground()).name(),
            volts));
    return List.copyOf(readings);
  }

  private static Reading reading(
      Network network, String pin, String line, int net, int rail, String to, double volts) {
    return new Reading(
        pin,
        line,
        to,
        network.ohms(net, rail),
        network.fed(net, rail, volts, FEED_OHMS),
        network.fed(rail, net, volts, FEED_OHMS));
  }
}
