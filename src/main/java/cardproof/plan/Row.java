package cardproof.plan;

import java.util.List;

/** One row of a table: what it sets, and what must come back. */
public record Row(List<Setting> settings, List<Expected> expected) {
  public Row {
    settings = List.copyOf(settings);
    expected = List.copyOf(expected);
  }
}
