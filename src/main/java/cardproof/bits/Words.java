package cardproof.bits;

/**
 * How words are written, and masks and shifts that stay right at 64 bits, where Java's own shift
 * counts wrap round.
 */
public final class Words {
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

  /**
   * A word as a user writes it: one bit as 0, 1 or x; more as hexadecimal where the x bits allow.
   *
   * @param unknown bits that are x
   * @param width 1 to 64
   */
  public static String text(long value, long unknown, int width) {
    if (width == 1) {
      return digit(value, unknown, 0);
    }
    StringBuilder text = new StringBuilder();
    if (wholeNibbles(unknown, width)) {
      text.append("0x");
      for (int shift = (width - 1) / 4 * 4; shift >= 0; shift -= 4) {
        boolean known = (unknown >>> shift & 0xF) == 0;
        text.append(
            known
                ? Character.toUpperCase(Character.forDigit((int) (value >>> shift & 0xF), 16))
                : 'x');
      }
      return text.toString();
    }
    text.append("0b");
    for (int bit = width - 1; bit >= 0; bit--) {
      text.append(digit(value, unknown, bit));
      if (bit % 4 == 0 && bit > 0) {
        text.append('_');
      }
    }
    return text.toString();
  }

  private static boolean wholeNibbles(long unknown, int width) {
    for (int shift = 0; shift < width; shift += 4) {
      long nibble = unknown >>> shift & 0xF;
      long whole = width - shift >= 4 ? 0xF : (1L << (width - shift)) - 1;
      if (nibble != 0 && nibble != whole) {
        return false;
      }
    }
    return true;
  }

  private static String digit(long value, long unknown, int bit) {
    if ((unknown >>> bit & 1) != 0) {
      return "x";
    }
    return (value >>> bit & 1) != 0 ? "1" : "0";
  }
}
