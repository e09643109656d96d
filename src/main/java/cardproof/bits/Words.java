package cardproof.bits;

/** Masks and shifts that stay right at 64 bits, where Java's own shift counts wrap round. */
final class Words {
  static final int MAX_WIDTH = 64;

  private Words() {}

  /** The lowest {@code width} bits set, for 0 to 64. */
  static long mask(int width) {
    return width == 0 ? 0 : -1L >>> (MAX_WIDTH - width);
  }

  /** Bits that an unsigned number needs, at least 1. */
  static int widthOf(long value) {
    return Math.max(1, MAX_WIDTH - Long.numberOfLeadingZeros(value));
  }

  /** Towards bit 0 by {@code places}; away from it when negative. */
  static long shiftRight(long word, int places) {
    if (places <= -MAX_WIDTH || places >= MAX_WIDTH) {
      return 0;
    }
    return places >= 0 ? word >>> places : word << -places;
  }
}
