package cardproof.files;

import cardproof.text.Nearest;
import cardproof.text.Position;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/**
 * From a file of comma-separated values (RFC 4180) to the rows of a netlist. The first row names
 * the columns, which may come in any order and among others.
 */
final class CsvReader {
  static final List<String> COLUMNS = List.of("reference", "pin", "net");

  private final Problems problems;
  private SourceText source;

  CsvReader(Problems problems) {
    this.problems = problems;
  }

  /** All rows that are whole; problems say what is wrong with others. */
  List<CsvRow> read(Path file) {
    Optional<SourceText> text = SourceReader.read(file, problems);
    if (text.isEmpty()) {
      return List.of();
    }
    source = text.get();
    long line = 0;
    try (CSVParser parser = CSVParser.parse(source.text(), CSVFormat.RFC4180)) {
      List<CsvRow> rows = new ArrayList<>();
      Optional<int[]> columns = Optional.empty();
      Iterator<CSVRecord> records = parser.iterator();
      while (true) {
        line = parser.getCurrentLineNumber() + 1;
        if (!records.hasNext()) {
          break;
        }
        CSVRecord record = records.next();
        if (columns.isPresent()) {
          row(record, at(line), columns.get()).ifPresent(rows::add);
          continue;
        }
        columns = columns(record, at(line));
        if (columns.isEmpty()) {
          return List.of();
        }
      }
      if (columns.isEmpty()) {
        problems.fileError(source.name(), "the netlist is empty", header(), "");
      }
      return rows;
    } catch (UncheckedIOException unreadable) {
      notCsv(line);
    } catch (IOException unreadable) {
      notCsv(line);
    }
    return List.of();
  }

  private Position at(long line) {
    return new Position(source.name(), (int) line, 1);
  }

  private static String header() {
    return "a first row that names the columns reference, pin and net";
  }

  /** Text held in memory fails to be read for its quotes alone. */
  private void notCsv(long line) {
    problems.error(
        at(line),
        "the quotes in this row are not those of comma-separated values",
        "a quote at both ends of a value, and every quote inside it twice (RFC 4180)",
        "");
  }

  /** Where reference, pin and net stand in each row. */
  private Optional<int[]> columns(CSVRecord header, Position at) {
    List<String> names =
        header.stream().map(name -> name.strip().toLowerCase(Locale.ROOT)).toList();
    int[] columns = COLUMNS.stream().mapToInt(names::indexOf).toArray();
    List<String> missing = COLUMNS.stream().filter(name -> !names.contains(name)).toList();
    if (!missing.isEmpty()) {
      boolean semicolons = names.size() == 1 && names.get(0).indexOf(';') >= 0;
      problems.error(
          at,
          "the netlist has no column "
              + missing.stream().map(name -> "'" + name + "'").collect(Collectors.joining(", ")),
          header(),
          semicolons
              ? "Values are parted by commas, and this row has semicolons"
              : Nearest.to(missing.get(0), names).map(near -> "Is it '" + near + "'?").orElse(""));
      return Optional.empty();
    }
    for (String name : COLUMNS) {
      if (names.indexOf(name) != names.lastIndexOf(name)) {
        problems.error(at, "the netlist has two columns '" + name + "'", "each column once", "");
        return Optional.empty();
      }
    }
    return Optional.of(columns);
  }

  private Optional<CsvRow> row(CSVRecord record, Position at, int[] columns) {
    boolean blank = record.size() == 1 && record.get(0).isBlank();
    if (blank) {
      return Optional.empty();
    }
    int needed = Arrays.stream(columns).max().orElseThrow() + 1;
    if (record.size() < needed) {
      problems.error(
          at,
          "this row has " + record.size() + (record.size() == 1 ? " value" : " values"),
          needed + " or more, for reference, pin and net",
          "");
      return Optional.empty();
    }
    String[] values =
        Arrays.stream(columns).mapToObj(record::get).map(String::strip).toArray(String[]::new);
    for (int i = 0; i < 2; i++) {
      if (values[i].isEmpty()) {
        problems.error(at, "this row has no " + COLUMNS.get(i), "a reference and a pin of it", "");
        return Optional.empty();
      }
    }
    return Optional.of(new CsvRow(at, values[0], values[1], values[2]));
  }
}
