package cardproof.notes;

import java.util.Arrays;
import java.util.Map;

/**
 * A number with its unit, in volts, amperes, seconds, metres and kelvin.
 *
 * @param powers of those five
 */
record Amount(double value, int... powers) {
  private static final int KINDS = 5;
  private static final Amount VOLT = unit(1, 0, 0, 0, 0);
  private static final Amount AMPERE = unit(0, 1, 0, 0, 0);
  private static final Amount SECOND = unit(0, 0, 1, 0, 0);
  private static final Amount METRE = unit(0, 0, 0, 1, 0);
  private static final Amount KELVIN = unit(0, 0, 0, 0, 1);
  private static final Amount OHM = VOLT.over(AMPERE);
  private static final Amount WATT = VOLT.times(AMPERE);
  private static final Amount FARAD = AMPERE.times(SECOND).over(VOLT);

  private static final Map<String, Amount> UNITS =
      Map.ofEntries(
          Map.entry("V", VOLT),
          Map.entry("mV", VOLT.times(plain(1e-3))),
          Map.entry("A", AMPERE),
          Map.entry("mA", AMPERE.times(plain(1e-3))),
          Map.entry("uA", AMPERE.times(plain(1e-6))),
          Map.entry("ohm", OHM),
          Map.entry("mohm", OHM.times(plain(1e-3))),
          Map.entry("kohm", OHM.times(plain(1e3))),
          Map.entry("W", WATT),
          Map.entry("mW", WATT.times(plain(1e-3))),
          Map.entry("uF", FARAD.times(plain(1e-6))),
          Map.entry("nF", FARAD.times(plain(1e-9))),
          Map.entry("nC", AMPERE.times(SECOND).times(plain(1e-9))),
          Map.entry("s", SECOND),
          Map.entry("us", SECOND.times(plain(1e-6))),
          Map.entry("m", METRE),
          Map.entry("mm2", METRE.times(METRE).times(plain(1e-6))),
          Map.entry("K", KELVIN));

  static Amount plain(double value) {
    return new Amount(value, new int[KINDS]);
  }

  private static Amount unit(int... powers) {
    return new Amount(1, powers);
  }

  /** Of a unit such as {@code mA} or {@code K/W}. */
  static Amount ofUnit(String name) {
    int slash = name.indexOf('/');
    if (slash >= 0) {
      return ofUnit(name.substring(0, slash)).over(ofUnit(name.substring(slash + 1)));
    }
    Amount unit = UNITS.get(name);
    if (unit == null) {
      throw new AssertionError("unknown unit '" + name + "'");
    }
    return unit;
  }

  Amount times(Amount other) {
    return new Amount(value * other.value, added(other, 1));
  }

  Amount over(Amount other) {
    return new Amount(value / other.value, added(other, -1));
  }

  Amount plus(Amount other) {
    return new Amount(value + like(other).value, powers);
  }

  Amount minus(Amount other) {
    return new Amount(value - like(other).value, powers);
  }

  Amount squared() {
    return times(this);
  }

  Amount logarithm() {
    return plain(Math.log(like(plain(0)).value + value));
  }

  boolean isLike(Amount other) {
    return Arrays.equals(powers, other.powers);
  }

  private Amount like(Amount other) {
    if (!isLike(other)) {
      throw new AssertionError("units that do not go together: " + this + " and " + other);
    }
    return other;
  }

  private int[] added(Amount other, int sign) {
    int[] sum = powers.clone();
    for (int i = 0; i < KINDS; i++) {
      sum[i] += sign * other.powers[i];
    }
    return sum;
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Amount amount && value == amount.value && isLike(amount);
  }

  @Override
  public int hashCode() {
    return 31 * Double.hashCode(value) + Arrays.hashCode(powers);
  }

  @Override
  public String toString() {
    return value + " (V, A, s, m, K to the " + Arrays.toString(powers) + ")";
  }
}
