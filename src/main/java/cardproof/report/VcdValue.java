package cardproof.report;

import java.nio.charset.StandardCharsets;

/**
 * A value of a variable: a row of 0, 1 and x, or a real number.
 *
 * @param digits without what the left-extension of IEEE 1364-2005 table 18-1 puts back: {@code 0},
 *     {@code 101}, {@code x01}
 */
public record VcdValue(String digits, boolean real) {
  private static final VcdValue ZERO = new VcdValue("0", false);
  private static final VcdValue ONE = new VcdValue("1", false);
  private static final VcdValue UNKNOWN = new VcdValue("x", false);

  public static VcdValue bit(boolean level) {
    return level ? ONE : ZERO;
  }

  /** Every bit unknown. */
  public static VcdValue unknown() {
    return UNKNOWN;
  }

  /** A number that is not negative. */
  public static VcdValue number(long number) {
    if (number < 0) {
      throw new IllegalArgumentException("below zero: " + number);
    }
    return new VcdValue(Long.toBinaryString(number), false);
  }

  /**
   * @param digits 0, 1 and x, highest bit first, one at least
   */
  public static VcdValue bits(CharSequence digits) {
    int from = 0;
    while (from < digits.length() - 1 && isRestored(digits, from)) {
      from++;
    }
    return new VcdValue(digits.subSequence(from, digits.length()).toString(), false);
  }

  /** Letters of 8 bits each, as strings are kept in a reg (IEEE 1364-2005, 3.6). */
  public static VcdValue text(String ascii) {
    StringBuilder digits = new StringBuilder("0");
    for (byte letter : ascii.getBytes(StandardCharsets.US_ASCII)) {
      digits.append(Integer.toBinaryString(256 | letter), 1, 9);
    }
    return bits(digits);
  }

  /**
   * @throws IllegalArgumentException for what no VCD can hold, such as not-a-number
   */
  public static VcdValue real(double number) {
    if (!Double.isFinite(number)) {
      throw new IllegalArgumentException("no finite number: " + number);
    }
    return new VcdValue(Double.toString(number == 0 ? 0.0 : number), true);
  }

  /** Left of 0 and of 1 readers put 0, left of x they put x. */
  private static boolean isRestored(CharSequence digits, int at) {
    char next = digits.charAt(at + 1);
    return switch (digits.charAt(at)) {
      case '0' -> next != 'x';
      case 'x' -> next == 'x';
      default -> false;
    };
  }
}
