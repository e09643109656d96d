package cardproof.log;

import java.time.Instant;

/**
 * A repair of a unit.
 *
 * @param unit what was repaired
 * @param note what was done
 * @param at when, to the microsecond
 */
public record Rework(UnitId unit, String note, Instant at) {}
