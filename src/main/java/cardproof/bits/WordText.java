package cardproof.bits;

/**
 * How the values of a bus are written: one bit as 0, 1 or x; more as hexadecimal where x bits
 * allow.
 */
public final class WordText {
  private WordText() {}

  /**
   * @param unknown bits that are x
   * @param width 1 to 64
   */
  public static String of(long value, long unknown, int width) {
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
