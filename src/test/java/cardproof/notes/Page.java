package cardproof.notes;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * A page of the builder's notes, and the tables on it.
 *
 * @param tables in the page's order
 */
record Page(Path path, String text, List<Table> tables) {
  static final Path FOLDER = Path.of("firmware-notes");

  /**
   * @param section heading that the table stands under
   * @param rows without the heading; as many cells each as the heading
   */
  record Table(String section, List<String> heading, List<List<String>> rows) {
    /** Cells of a column, top to bottom. */
    List<String> column(String name) {
      int at = heading.indexOf(name);
      if (at < 0) {
        throw new AssertionError("no column '" + name + "' in " + heading);
      }
      return rows.stream().map(row -> row.get(at)).toList();
    }
  }

  static Page read(String name) {
    return read(FOLDER.resolve(name));
  }

  static Page read(Path path) {
    String text;
    try {
      text = Files.readString(path).replace("\r\n", "\n");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    List<Table> tables = new ArrayList<>();
    String section = "";
    List<List<String>> table = new ArrayList<>();
    for (String line : (text + "\n").split("\n", -1)) {
      if (line.startsWith("|")) {
        table.add(cells(line));
      } else if (!table.isEmpty()) {
        tables.add(new Table(section, table.get(0), List.copyOf(table.subList(2, table.size()))));
        table.clear();
      }
      if (line.startsWith("#")) {
        section = line.replaceFirst("^#+ ", "");
      }
    }
    return new Page(path, text, tables);
  }

  Table table(String section, String firstHeading) {
    return tables.stream()
        .filter(t -> t.section().equals(section) && t.heading().get(0).equals(firstHeading))
        .findFirst()
        .orElseThrow(
            () -> new AssertionError("no table '" + firstHeading + "' under '" + section + "'"));
  }

  private static List<String> cells(String line) {
    String inner = line.strip().replaceFirst("^\\|", "").replaceFirst("\\|$", "");
    return Arrays.stream(inner.split("\\|", -1)).map(String::strip).toList();
  }
}
