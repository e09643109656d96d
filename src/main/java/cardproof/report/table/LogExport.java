package cardproof.report.table;

import cardproof.log.BenchLog;
import cardproof.log.RunSummary;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import com.google.gson.stream.JsonWriter;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.Map;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;

/**
 * Writes records of a bench log for other programs: as a folder of tables, comma-separated by RFC
 * 4180, or as one JSON document by RFC 8259 with an array a table. What is there already is not
 * overwritten.
 */
public final class LogExport {
  private LogExport() {}

  /**
   * Into one JSON document.
   *
   * @throws RefusedException when it is there already, or cannot be written
   */
  public static void toJson(BenchLog log, List<RunSummary> runs, Path file) {
    try (BufferedWriter text = create(file)) {
      JsonWriter json = new JsonWriter(text);
      json.setIndent(" ");
      json.beginObject();
      for (Table table : Table.values()) {
        json.name(table.title()).beginArray();
        table.write(log, runs, row -> object(json, row));
        json.endArray();
      }
      json.endObject();
      json.flush();
      text.write('\n');
    } catch (IOException e) {
      throw refused(file, e);
    } catch (UncheckedIOException e) {
      throw refused(file, e.getCause());
    }
  }

  /**
   * Into a folder, which is created where it is missing, a file a table.
   *
   * @throws RefusedException when one of them is there already, or cannot be written
   */
  public static void toCsv(BenchLog log, List<RunSummary> runs, Path folder) {
    try {
      Files.createDirectories(folder);
      for (Table table : Table.values()) {
        try (BufferedWriter text = create(folder.resolve(table.title() + ".csv"))) {
          csv(table, log, runs, new CSVPrinter(text, CSVFormat.RFC4180));
        }
      }
    } catch (IOException e) {
      throw refused(folder, e);
    } catch (UncheckedIOException e) {
      throw refused(folder, e.getCause());
    }
  }

  private static void csv(Table table, BenchLog log, List<RunSummary> runs, CSVPrinter out) {
    boolean[] headed = new boolean[1];
    table.write(
        log,
        runs,
        row -> {
          if (!headed[0]) {
            headed[0] = true;
            print(out, row.cells().keySet());
          }
          print(out, row.cells().values());
        });
  }

  private static void print(CSVPrinter out, Iterable<?> cells) {
    try {
      out.printRecord(cells);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void object(JsonWriter json, Row row) {
    try {
      json.beginObject();
      for (Map.Entry<String, Object> cell : row.cells().entrySet()) {
        json.name(cell.getKey());
        Object value = cell.getValue();
        if (value instanceof Number number) {
          json.value(number);
        } else if (value instanceof Boolean truth) {
          json.value(truth);
        } else if (value == null) {
          json.nullValue();
        } else {
          json.value(value.toString());
        }
      }
      json.endObject();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static BufferedWriter create(Path file) throws IOException {
    return Files.newBufferedWriter(
        file, StandardCharsets.UTF_8, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
  }

  private static RefusedException refused(Path place, IOException e) {
    boolean there = e instanceof FileAlreadyExistsException;
    return new RefusedException(
        new Problem(
            place.toString(),
            there
                ? "there is a file " + e.getMessage() + " already"
                : "cannot be written: " + e.getMessage(),
            there ? "a name that is not taken" : "a place that this user may write to",
            there ? "Take another name, or move it away" : "Choose another place"));
  }
}
