package cardproof.sim;

import cardproof.link.Protocol;
import cardproof.sim.circuit.Draws;

/**
 * What the simulated board says of itself.
 *
 * @param boards key of the board, from which its id and its boot numbers are drawn
 * @param name printable ASCII, at most 31 letters
 * @param slots how many steps it keeps, at least 2
 * @param periodNs sampling period
 */
record Identity(long boards, String name, int slots, long periodNs) {
  static final String FIRMWARE = "1.0.0";
  static final int LONGEST_FRAME = Protocol.LONGEST_FRAME;

  private static final int BOARD = 1;
  private static final int BOOT = 2;
  private static final int NS_PER_US = 1000;

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
