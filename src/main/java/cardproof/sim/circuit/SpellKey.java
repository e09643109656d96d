package cardproof.sim.circuit;

/** The key of a spell. */
final class SpellKey {
  private static final long FNV_OFFSET = 0xCBF2_9CE4_8422_2325L;
  private static final long FNV_PRIME = 0x100_0000_01B3L;

  private SpellKey() {}

  static long of(long seed, String name) {
    long mixed = FNV_OFFSET ^ seed;
    for (int i = 0; i < name.length(); i++) {
      mixed = (mixed ^ name.charAt(i)) * FNV_PRIME;
    }
    return mixed;
  }
}
