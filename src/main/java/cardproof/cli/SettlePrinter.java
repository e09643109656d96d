package cardproof.cli;

import cardproof.text.Micros;
import cardproof.timing.SettleRow;
import cardproof.timing.SettleTable;
import cardproof.timing.SettleTimes;
import java.io.PrintWriter;
import java.util.List;
import java.util.function.ToDoubleFunction;

/** The settle table: a line and a direction a row, milliseconds from the drive change. */
final class SettlePrinter {
  private final PrintWriter out;
  private final Screen screen;

  SettlePrinter(Screen screen) {
    this.screen = screen;
    this.out = screen.out();
  }

  void print(SettleTable table) {
    List<SettleRow> rows = table.rows();
    if (rows.isEmpty()) {
      return;
    }
    out.println(
        (table.isVoid() ? screen.bad("VOID, see below: ") : "")
            + screen.strong("settle times, ms from the drive change to the line's last change"));
    out.printf(
        "  %-8s %-8s %-8s %6s %8s %8s %8s %8s %6s%n",
        "line", "pin", "going", "n", "min", "median", "90 %", "max", "cut");
    boolean labelled = rows.stream().anyMatch(row -> LineLabels.isPrinted(row.line()));
    for (SettleRow row : rows) {
      out.printf(
          "  %-8s %-8s %-8s %6d %8s %8s %8s %8s %s%n",
          row.line().label(),
          row.line().pin(),
          row.direction(),
          row.n(),
          millis(row, SettleTimes::minUs),
          millis(row, SettleTimes::medianUs),
          millis(row, SettleTimes::p90Us),
          millis(row, SettleTimes::maxUs),
          (row.censored() == 0 ? "      " : String.format("%6d", row.censored()))
              + (labelled ? "  " + LineLabels.place(row.line()) : ""));
    }
    if (rows.stream().anyMatch(row -> row.censored() > 0)) {
      out.println("  cut: still moving when watching ended; not in the figures");
    }
    out.println();
  }

  private static String millis(SettleRow row, ToDoubleFunction<SettleTimes> figureUs) {
    return row.times()
        .map(times -> Micros.millis(Math.round(figureUs.applyAsDouble(times))))
        .orElse("-");
  }
}
