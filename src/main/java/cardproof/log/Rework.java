package cardproof.log;

import java.time.Instant;
import java.util.List;

/**
 * A repair of a unit.
 *
 * @param unit what was repaired
 * @param note what was done
 * @param at when, to the microsecond
 * @param pictures files that show it, as they were given; they are not kept in the log
 */
public record Rework(UnitId unit, String note, Instant at, List<String> pictures) {
  public Rework {
    pictures = List.copyOf(pictures);
  }
}
