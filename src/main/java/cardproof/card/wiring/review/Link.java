package cardproof.card.wiring.review;

import cardproof.card.wiring.Part;

/**
 * A way for current from one node to another that is no load: one throw of a contact, a diode, or a
 * resistor too small to keep a coil from operating.
 *
 * @param relay number of the relay whose contact it is, or {@link #NO_RELAY}
 * @param pole of that relay, from 0
 * @param whenOperated whether it is the normally open throw
 * @param from node of com, or of the anode
 * @param fromNet the net of the same end, for words
 * @param oneWay a diode
 * @param weak a resistor
 */
record Link(
    Part part,
    int relay,
    int pole,
    boolean whenOperated,
    int from,
    int to,
    int fromNet,
    int toNet,
    boolean oneWay,
    boolean weak) {
  static final int NO_RELAY = -1;

  boolean isContact() {
    return relay != NO_RELAY;
  }

  int other(int node) {
    return node == from ? to : from;
  }

  /** Whether current can flow away from this end. */
  boolean leaves(int node) {
    return !oneWay || node == from;
  }
}
