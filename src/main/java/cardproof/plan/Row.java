package cardproof.plan;

import java.util.List;

/**
 * One row of a table: what it sets, and what must come back.
 *
 * @param pulse buses set after that and then put back; empty where the step's own pulse holds. All
 *     rows of a table have one, or none has
 * @param whilePulsed what must come back while a pulse is on
 * @param expected what must come back in the end
 */
public record Row(
    List<Setting> settings,
    List<Setting> pulse,
    List<Expected> whilePulsed,
    List<Expected> expected) {
  public Row {
    settings = List.copyOf(settings);
    pulse = List.copyOf(pulse);
    whilePulsed = List.copyOf(whilePulsed);
    expected = List.copyOf(expected);
  }

  public Row(List<Setting> settings, List<Expected> expected) {
    this(settings, List.of(), List.of(), expected);
  }

  public boolean expectsNothing() {
    return whilePulsed.isEmpty() && expected.isEmpty();
  }
}
