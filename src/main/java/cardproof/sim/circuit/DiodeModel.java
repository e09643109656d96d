package cardproof.sim.circuit;

import cardproof.card.wiring.Diode;

/** A diode as the engine takes it: so many volts and ohms forward, nothing backward. */
final class DiodeModel {
  static final double VOLTS = Diode.FORWARD_VOLTS;
  static final double OHMS = Diode.FORWARD_OHMS;

  private DiodeModel() {}
}
