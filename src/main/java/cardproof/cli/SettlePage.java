package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.LineName;
import cardproof.log.RunSummary;
import cardproof.text.Micros;
import cardproof.timing.SettleRow;
import cardproof.timing.SettleTimes;
import cardproof.timing.history.LineHistory;
import java.io.PrintWriter;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/** Settle times of a unit for a reader at the bench. */
final class SettlePage {
  private static final int SLOWEST_SHOWN = 10;
  private static final int PLOT_WIDTH = 32;

  private final SettleView view;
  private final TransitionWords words;
  private final Screen screen;
  private final PrintWriter out;

  SettlePage(SettleView view, BenchLog log, Screen screen) {
    this.view = view;
    this.words = new TransitionWords(log);
    this.screen = screen;
    this.out = screen.out();
  }

  /**
   * @param allTransitions all of them and not the slowest alone
   */
  void print(boolean allTransitions) {
    head();
    if (view.lines().isEmpty()) {
      out.println("No watched line moved in them.");
      return;
    }
    pooled();
    out.println();
    slowest(allTransitions ? Integer.MAX_VALUE : SLOWEST_SHOWN);
  }

  private void head() {
    List<RunSummary> runs = view.runs();
    out.println(
        screen.strong(
            "settle times of "
                + view.unit()
                + ", "
                + Plural.of(runs.size(), "run")
                + ", "
                + When.text(runs.get(runs.size() - 1).started())
                + (runs.size() == 1 ? "" : " to " + When.text(runs.get(0).started()))));
    if (!view.leftOut().isEmpty()) {
      out.println(
          screen.bad("VOID and left out: ")
              + (view.leftOut().size() == 1 ? "run " : "runs ")
              + view.leftOut().stream()
                  .map(run -> Long.toString(run.id()))
                  .collect(Collectors.joining(", "))
              + ", where the card moved after it had been called settled");
    }
    out.println();
  }

  private void pooled() {
    List<SettleRow> rows = view.lines().stream().map(LineHistory::pooled).toList();
    RangePlot plot =
        new RangePlot(
            PLOT_WIDTH,
            rows.stream()
                .flatMap(row -> row.times().stream())
                .mapToDouble(SettleTimes::maxUs)
                .max()
                .orElse(1));
    out.println(
        "all transitions together, ms from the drive change to the line's last change;"
            + " a description of");
    out.println("what these runs happened to do, and no bound");
    String end = Micros.millis(Math.round(plot.endUs()));
    out.printf(
        "  %-8s %-8s %-8s %6s %8s %8s %8s %8s %5s  0%" + (PLOT_WIDTH - 1) + "s%n",
        "line",
        "pin",
        "going",
        "n",
        "min",
        "median",
        "90 %",
        "max",
        "cut",
        end);
    for (SettleRow row : rows) {
      LineName line = row.line();
      out.printf(
          "  %-8s %-8s %-8s %6d %8s %8s %8s %8s %5s  %s%n",
          line.label(),
          line.pin(),
          row.direction(),
          row.n() + row.censored(),
          millis(row.times().map(SettleTimes::minUs)),
          millis(row.times().map(SettleTimes::medianUs)),
          millis(row.times().map(SettleTimes::p90Us)),
          millis(row.times().map(SettleTimes::maxUs)),
          row.censored() == 0 ? "" : Long.toString(row.censored()),
          row.times().map(plot::of).orElse("").stripTrailing());
    }
    out.println("  - least to most, O median, = median to 90 %");
    if (rows.stream().anyMatch(row -> row.censored() > 0)) {
      out.println("  cut: still moving when watching ended; counted in n, not in the figures");
    }
  }

  private void slowest(int most) {
    out.println(screen.strong("slowest transitions, by the longest time each ever took"));
    int place = 1;
    for (SettleView.Found found : view.slowest(most)) {
      LineName line = found.line().line();
      String longest =
          found.row().censored() > 0
              ? "more than was watched, " + found.row().censored() + " of " + found.row().n()
              : millis(found.row().times().map(SettleTimes::maxUs))
                  + " ms, median "
                  + millis(found.row().times().map(SettleTimes::medianUs))
                  + " of "
                  + found.row().n();
      out.printf(
          "  %2d  %s %s: %s%n      %s%n      run %d, vector %d, %s%n",
          place++,
          line.label(),
          found.line().endsHigh() ? "rising" : "falling",
          longest,
          words.drives(found.row().run(), found.row().vector()),
          found.row().run(),
          found.row().vector() + 1,
          words.place(found.row().run(), found.row().vector()));
    }
  }

  private static String millis(Optional<Double> us) {
    return us.map(value -> Micros.millis(Math.round(value))).orElse("-");
  }
}
