package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.timing.SettleTimes;
import cardproof.timing.history.LineHistory;
import cardproof.timing.history.TransitionRow;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.util.HexFormat;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;

/** Every transition of every line, RFC 4180, times in microseconds. Columns are only ever added. */
final class SettleCsv {
  private SettleCsv() {}

  static void print(SettleView view, BenchLog log, PrintWriter out) {
    try {
      CSVPrinter table = new CSVPrinter(out, CSVFormat.RFC4180);
      table.printRecord(
          "line",
          "label",
          "pin",
          "going",
          "transition",
          "drives",
          "n",
          "min_us",
          "median_us",
          "p90_us",
          "max_us",
          "cut",
          "run",
          "vector",
          "at");
      TransitionWords words = new TransitionWords(log);
      for (LineHistory line : view.lines()) {
        line.forEachTransition(row -> row(table, words, line, row));
      }
      table.flush();
    } catch (IOException e) {
      throw new UncheckedIOException("writing to standard output", e);
    }
  }

  private static void row(
      CSVPrinter table, TransitionWords words, LineHistory line, TransitionRow row) {
    try {
      table.printRecord(
          line.line().bus() + "[" + line.line().bit() + "]",
          line.line().label(),
          line.line().pin(),
          line.endsHigh() ? "rising" : "falling",
          HexFormat.of().toHexDigits(row.transition()),
          words.drives(row.run(), row.vector()),
          row.n(),
          row.times().map(SettleTimes::minUs).map(SettleCsv::us).orElse(""),
          row.times().map(SettleTimes::medianUs).map(SettleCsv::us).orElse(""),
          row.times().map(SettleTimes::p90Us).map(SettleCsv::us).orElse(""),
          row.times().map(SettleTimes::maxUs).map(SettleCsv::us).orElse(""),
          row.censored(),
          row.run(),
          row.vector() + 1,
          words.place(row.run(), row.vector()));
    } catch (IOException e) {
      throw new UncheckedIOException("writing to standard output", e);
    }
  }

  private static String us(double value) {
    return Long.toString(Math.round(value));
  }
}
