package cardproof.report;

import java.util.Arrays;

/** Bits that are shown as one vector: a change of one is a new value of all. */
final class BitGroup {
  private final VcdVariable variable;
  private final char[] digits;

  /** All bits unknown. */
  BitGroup(VcdVariable variable) {
    this.variable = variable;
    this.digits = new char[variable.width()];
    Arrays.fill(digits, 'x');
  }

  VcdVariable variable() {
    return variable;
  }

  /**
   * @param bit counted from the lowest of the group
   * @return the value of the whole group from now on
   */
  VcdValue set(int bit, boolean level) {
    return set(bit, level ? '1' : '0');
  }

  VcdValue unknown(int bit) {
    return set(bit, 'x');
  }

  private VcdValue set(int bit, char digit) {
    digits[digits.length - 1 - bit] = digit;
    return VcdValue.bits(new String(digits));
  }
}
