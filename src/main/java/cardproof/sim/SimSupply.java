package cardproof.sim;

/**
 * What a simulated fixture can do with the supply of its card.
 *
 * @param switched whether it can cut it; it then starts with the supply off
 * @param senses whether it measures rail and current, which it can of a card with wiring only
 * @param railMostMv end of its range
 * @param railResolutionMv least difference that it can tell
 * @param currentMostMa end of its range
 * @param currentResolutionMa least difference that it can tell
 * @param tolerancePercent how far the resistance of a coil or lamp may lie from its type's
 */
public record SimSupply(
    boolean switched,
    boolean senses,
    int railMostMv,
    int railResolutionMv,
    int currentMostMa,
    int currentResolutionMa,
    int tolerancePercent) {
  /** A supply that is on, by itself, and that nobody sees. */
  public static final SimSupply UNSEEN = new SimSupply(false, false, 0, 1, 0, 1, 0);

  public SimSupply {
    check(railResolutionMv > 0 && currentResolutionMa > 0, "a resolution of nothing");
    check(tolerancePercent >= 0 && tolerancePercent < 100, tolerancePercent + " % of tolerance");
  }

  int railMv(long millivolts) {
    return read(millivolts, railResolutionMv, railMostMv);
  }

  int currentMa(long microamps) {
    return read(Math.round(microamps / 1e3), currentResolutionMa, currentMostMa);
  }

  private static int read(long value, int resolution, int most) {
    long steps = Math.round((double) Math.max(0, value) / resolution);
    return (int) Math.min(Math.min(most, 65_535), steps * resolution);
  }

  private static void check(boolean holds, String what) {
    if (!holds) {
      throw new IllegalArgumentException("a simulated supply cannot have " + what);
    }
  }
}
