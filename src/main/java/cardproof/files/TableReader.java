package cardproof.files;

import cardproof.plan.Expected;
import cardproof.plan.Row;
import cardproof.plan.Setting;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.OptionalInt;
import java.util.Set;

/** A step's table: columns that are driven, columns that are expected, and rows. */
final class TableReader {
  static final List<String> KEYS = List.of("drive", "expect", "rows");

  private static final String EXAMPLE =
      "table: {drive: [A, B], expect: [S], rows: [[0, 1, 1], [2, 3, 5]]}";

  private record Column(Node.Text name, OptionalInt bus, boolean driven) {}

  private final PlanNames names;
  private final Problems problems;
  private final SettingReader settings;
  private final ExpectReader expectations;

  TableReader(PlanNames names, Problems problems) {
    this.names = names;
    this.problems = problems;
    this.settings = new SettingReader(names, problems);
    this.expectations = new ExpectReader(names, problems);
  }

  /**
   * @param stepExpects what the step expects beside its table; each row takes it along
   */
  List<Row> rows(Node node, DrivenOnce once, List<Expected> stepExpects) {
    return Fields.of(node, "the table", KEYS, problems)
        .map(fields -> rows(fields, once, stepExpects))
        .orElse(List.of());
  }

  private List<Row> rows(Fields fields, DrivenOnce once, List<Expected> stepExpects) {
    List<Column> columns = new ArrayList<>();
    fields
        .require("drive", EXAMPLE)
        .ifPresent(
            node -> {
              for (Node.Text name :
                  settings.names(node, "drive", "buses that the rows set, such as [A, B]")) {
                OptionalInt bus = names.driven(name);
                boolean free = bus.isEmpty() || once.take(bus.getAsInt(), name, "table");
                columns.add(new Column(name, free ? bus : OptionalInt.empty(), true));
              }
            });
    fields.get("expect").ifPresent(node -> expectColumns(node, columns, stepExpects));
    return fields
        .require("rows", EXAMPLE)
        .map(node -> rows(node, columns, stepExpects))
        .orElse(List.of());
  }

  private void expectColumns(Node node, List<Column> columns, List<Expected> stepExpects) {
    Set<Integer> seen = new HashSet<>();
    stepExpects.forEach(expected -> seen.add(expected.busIndex()));
    for (Node.Text name :
        settings.names(node, "expect", "buses that the rows expect something of, such as [S]")) {
      OptionalInt bus = names.watched(name);
      if (bus.isPresent() && !seen.add(bus.getAsInt())) {
        problems.error(
            name.at(),
            "this step already expects something of bus " + name.described(),
            "one place that expects it",
            "");
        bus = OptionalInt.empty();
      }
      columns.add(new Column(name, bus, false));
    }
  }

  private List<Row> rows(Node node, List<Column> columns, List<Expected> stepExpects) {
    List<Row> rows = new ArrayList<>();
    if (!(node instanceof Node.Listing list) || list.items().isEmpty()) {
      problems.error(
          node.at(),
          "'rows' " + (node instanceof Node.Listing ? "is empty" : "is " + node.described()),
          "a list of rows, each a list of one value for each column",
          "");
      return rows;
    }
    for (Node item : list.items()) {
      if (item instanceof Node.Listing cells && cells.items().size() == columns.size()) {
        rows.add(row(cells, columns, stepExpects));
      } else {
        problems.error(
            item.at(),
            item instanceof Node.Listing cells
                ? "this row has " + cells.items().size() + " values"
                : "this row is " + item.described(),
            "one value for each of " + columnNames(columns),
            "");
      }
    }
    return List.copyOf(rows);
  }

  private static String columnNames(List<Column> columns) {
    return String.join(", ", columns.stream().map(column -> column.name().text()).toList());
  }

  private Row row(Node.Listing cells, List<Column> columns, List<Expected> stepExpects) {
    List<Setting> set = new ArrayList<>();
    List<Expected> expected = new ArrayList<>(stepExpects);
    for (int i = 0; i < columns.size(); i++) {
      Column column = columns.get(i);
      Node cell = cells.items().get(i);
      if (column.driven()) {
        settings.setting(cell, column.name().text(), column.bus()).ifPresent(set::add);
      } else {
        expectations
            .value(new Node.Entry(column.name(), cell, false), column.bus())
            .ifPresent(expected::add);
      }
    }
    return new Row(set, expected);
  }
}
