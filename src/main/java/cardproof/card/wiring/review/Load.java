package cardproof.card.wiring.review;

import cardproof.card.wiring.Part;

/**
 * Something that current does work in: a coil, a lamp, a resistor.
 *
 * @param relay number of the relay whose coil it is, or {@link Link#NO_RELAY}
 * @param first node of its first end
 */
record Load(Part part, int relay, int first, int second, double ohms) {
  boolean isCoil() {
    return relay != Link.NO_RELAY;
  }

  int other(int node) {
    return node == first ? second : first;
  }

  double milliamps(long millivolts) {
    return millivolts / ohms;
  }
}
