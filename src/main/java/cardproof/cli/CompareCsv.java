package cardproof.cli;

import cardproof.timing.compare.LineShift;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.util.Locale;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;

/** Shifts of settle times, a line and direction a row, RFC 4180. Columns are only ever added. */
final class CompareCsv {
  private CompareCsv() {}

  static void print(CompareView view, PrintWriter out) {
    try {
      CSVPrinter table = new CSVPrinter(out, CSVFormat.RFC4180);
      table.printRecord(
          "line",
          "label",
          "pin",
          "going",
          "pairs",
          "shift_us",
          "low_us",
          "high_us",
          "tenth_us",
          "p_holm",
          "margin_us",
          "change",
          "unsettled_before",
          "unsettled_after");
      for (LineShift line : view.times().lines()) {
        table.printRecord(
            line.line().bus() + "[" + line.line().bit() + "]",
            line.line().label(),
            line.line().pin(),
            line.direction(),
            line.shift().n(),
            us(line.shift().estimate()),
            us(line.lowUs()),
            us(line.highUs()),
            us(line.tenthUs()),
            String.format(Locale.ROOT, "%.3g", line.adjustedP()),
            us(line.marginUs()),
            CompareWords.change(line.change()),
            line.unsettledBefore(),
            line.unsettledAfter());
      }
      table.flush();
    } catch (IOException e) {
      throw new UncheckedIOException("writing to standard output", e);
    }
  }

  private static String us(double value) {
    return Double.isFinite(value) ? Long.toString(Math.round(value)) : "";
  }
}
