package cardproof.sim.circuit;

/**
 * How a node is joined to the rails. Bytes rather than an enum, since there is one for each node.
 */
final class Label {
  /** Joined to neither, and nothing leads there that could lift it: at ground's level. */
  static final byte DEAD = 0;

  /** Joined to neither, but through loads. */
  static final byte FLOATING = 1;

  /** Joined to the supply by contacts alone. */
  static final byte HIGH = 2;

  /** Joined to ground by contacts alone. */
  static final byte LOW = 3;

  /** Reached from the supply through one diode or more. */
  static final byte HIGH_BY_DIODE = 4;

  /** Reaches ground through one diode or more. */
  static final byte LOW_BY_DIODE = 5;

  /** Joined to both: a short. */
  static final byte SHORT = 6;

  private Label() {}

  /** Its level is a rail's, whatever flows. */
  static boolean solid(byte label) {
    return label == HIGH || label == LOW || label == SHORT;
  }

  /** Current comes to it from the supply with no load on the way. */
  static boolean fed(byte label) {
    return label == HIGH || label == HIGH_BY_DIODE;
  }
}
