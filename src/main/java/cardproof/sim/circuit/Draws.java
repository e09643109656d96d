package cardproof.sim.circuit;

/**
 * Random numbers that depend on what they are for and on nothing else, so that one fault or one
 * line more never shifts what another line draws.
 *
 * <p>Each is the output function of SplitMix64 (Steele, Lea and Flood, 2014) over a key into which
 * purpose, line and operation were mixed one after another.
 */
public final class Draws {
  private static final long GOLDEN_GAMMA = 0x9E37_79B9_7F4A_7C15L;

  private Draws() {}

  /** A key made of another and of one thing more. */
  public static long key(long key, long thing) {
    return mix((key ^ mix(thing + GOLDEN_GAMMA)) + GOLDEN_GAMMA);
  }

  /** A key made of another and of a name, letter by letter. */
  public static long key(long key, String name) {
    long mixed = key(key, name.length());
    for (int i = 0; i < name.length(); i++) {
      mixed = key(mixed, name.charAt(i));
    }
    return mixed;
  }

  /** An evenly spread number from {@code 0} to {@code bound - 1}; the bias is below 2^-40. */
  public static int below(long key, int bound) {
    return (int) Math.multiplyHigh(key >>> 1, 2L * bound);
  }

  /** Evenly spread from {@code 1 - part} to {@code 1 + part}. */
  public static double around1(long key, double part) {
    return 1 + part * (unit(key) * 2 - 1);
  }

  /** Evenly spread from 0 up to, but never, 1. */
  public static double unit(long key) {
    return (key >>> 11) * 0x1.0p-53;
  }

  private static long mix(long number) {
    long z = (number ^ number >>> 30) * 0xBF58_476D_1CE4_E5B9L;
    z = (z ^ z >>> 27) * 0x94D0_49BB_1331_11EBL;
    return z ^ z >>> 31;
  }
}
