package cardproof.sim.circuit;

/** Keys of spells. */
final class Spells {
  private static final long FNV_OFFSET = 0xCBF2_9CE4_8422_2325L;
  private static final long FNV_PRIME = 0x100_0000_01B3L;

  private Spells() {}

  static long key(long seed, String name) {
    long mixed = FNV_OFFSET ^ seed;
    for (int i = 0; i < name.length(); i++) {
      mixed = (mixed ^ name.charAt(i)) * FNV_PRIME;
    }
    return mixed;
  }
}
