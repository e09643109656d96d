package cardproof.log;

import java.util.Objects;

/**
 * One physical copy of a card, or its stand-in on the simulated bench; the two are different units
 * even where their names are the same.
 *
 * @param card the design, such as {@code sum}
 * @param unit which copy, such as {@code 03}
 * @param simulated whether it only exists on the simulated bench
 */
public record UnitId(String card, String unit, boolean simulated) {
  public UnitId {
    Objects.requireNonNull(card);
    Objects.requireNonNull(unit);
  }

  public static UnitId real(String card, String unit) {
    return new UnitId(card, unit, false);
  }

  public static UnitId simulated(String card, String unit) {
    return new UnitId(card, unit, true);
  }

  /** {@code sum unit 03}, and {@code SIMULATED} after it where it is. */
  @Override
  public String toString() {
    return card + " unit " + unit + (simulated ? " SIMULATED" : "");
  }
}
