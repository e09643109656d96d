package cardproof.log;

import java.util.OptionalInt;

/**
 * Rail and current of one vector; empty is what was not measured, as in every log of before.
 *
 * @param railMv at its end, millivolts
 * @param lowestRailMv lowest in its course
 * @param currentMa at its end, milliamps
 * @param highestCurrentMa highest in its course
 * @param expectedMa what a sound card draws at its end by its wiring, at the rail's nominal
 *     voltage; empty where that is not known
 */
public record SupplyRecord(
    OptionalInt railMv,
    OptionalInt lowestRailMv,
    OptionalInt currentMa,
    OptionalInt highestCurrentMa,
    OptionalInt expectedMa) {
  public static final SupplyRecord NOTHING =
      new SupplyRecord(
          OptionalInt.empty(),
          OptionalInt.empty(),
          OptionalInt.empty(),
          OptionalInt.empty(),
          OptionalInt.empty());

  /** Whether anything was measured. */
  public boolean measured() {
    return lowestRailMv.isPresent() || highestCurrentMa.isPresent();
  }
}
