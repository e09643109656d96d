package cardproof.report.table;

import java.util.LinkedHashMap;
import java.util.Map;

/**
 * One row of a table, column by column in the order in which they are put. A value is a text, a
 * whole number or a truth value; null is a figure that there is none of.
 */
final class Row {
  private final Map<String, Object> cells = new LinkedHashMap<>();

  Row put(String column, Object value) {
    cells.put(column, value);
    return this;
  }

  Map<String, Object> cells() {
    return cells;
  }
}
