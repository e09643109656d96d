package cardproof.sim;

import cardproof.link.Capability;
import cardproof.link.Edges;
import cardproof.link.Protocol;
import cardproof.link.Sequence;
import cardproof.sim.circuit.Draws;

/**
 * What the simulated board says of itself.
 *
 * @param boards key of the board, from which its id and its boot numbers are drawn
 * @param name printable ASCII, at most 31 letters
 * @param slots how many steps it keeps, at least 2
 * @param periodNs sampling period
 * @param minor version of the protocol that it speaks: 0 has no sequences and no edges
 * @param supply what it can do with the card's supply
 */
record Identity(long boards, String name, int slots, long periodNs, int minor, SimSupply supply) {
  static final String FIRMWARE = "1.1.0";
  static final int LONGEST_FRAME = Protocol.LONGEST_FRAME;

  private static final int BOARD = 1;
  private static final int BOOT = 2;
  private static final int NS_PER_US = 1000;

  private static final int MOST_EDGES = 4096;

  /** Whether it has what version 1.1 adds. */
  boolean hasAdditions() {
    return minor > 0;
  }

  boolean canSwitchSupply() {
    return hasAdditions() && supply.switched();
  }

  /** Whether it would measure rail and current, if there are any. */
  boolean senses() {
    return hasAdditions() && supply.senses();
  }

  /**
   * @param currents whether the card is simulated as one of currents; of any other there is nothing
   *     to measure
   */
  int supplyCapabilities(boolean currents) {
    boolean senses = senses() && currents;
    return (canSwitchSupply() ? Capability.SUPPLY_SWITCH.bit() : 0)
        | (senses ? Capability.SENSE.bit() : 0);
  }

  int capabilities(int watches) {
    int added = hasAdditions() ? Capability.SEQUENCES.bit() : 0;
    boolean capturing = hasAdditions() && watches <= Edges.MOST_WATCHES;
    return Capability.SIMULATED.bit() | added | (capturing ? Capability.EDGE_CAPTURE.bit() : 0);
  }

  int mostEdges() {
    return hasAdditions() ? MOST_EDGES : 0;
  }

  int mostEntries(int drives, int watches) {
    return hasAdditions() ? Sequence.mostEntries(drives, watches, LONGEST_FRAME) : 0;
  }

  /** Never 0, which would say that there is none. */
  long boardId() {
    return Draws.key(boards, BOARD) | 1;
  }

  /** Boots are counted from 1; the count is in the low bits, so that two boots always differ. */
  int boot(int count) {
    return (int) Draws.key(boards, BOOT) & 0xFFFF_0000 | count & 0xFFFF;
  }

  /** A simulated fixture is never blind for longer than one period. */
  int blindUs() {
    return (int) ((periodNs + NS_PER_US - 1) / NS_PER_US);
  }
}
