package cardproof.link;

/** The version of the protocol spoken here, and its fixed numbers. */
public final class Protocol {
  public static final int MAJOR = 1;
  public static final int MINOR = 1;

  /** Stands for that many millivolts or milliamps, or more. */
  public static final int MOST_SENSED = 65_535;

  /** The first version with timed sequences, edges, supply and sense. */
  static final int MINOR_OF_ADDITIONS = 1;

  /** A fixture keeps at least this many steps. */
  public static final int FEWEST_SLOTS = 2;

  /** No frame is longer than this before COBS, in bytes. */
  public static final int LONGEST_FRAME = FrameLayout.LONGEST;

  /** {@link Status#chattering} when no watch chattered. */
  public static final int NO_WATCH = 255;

  private Protocol() {}
}
