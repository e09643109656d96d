package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.UnitId;
import cardproof.timing.drift.Drift;
import cardproof.timing.drift.DriftWatch;
import cardproof.timing.drift.Point;
import cardproof.timing.drift.Series;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** Medians over runs for a reader at the bench. */
final class DriftPage {
  private static final int PLOT_ROWS = 8;

  private final UnitId unit;
  private final DriftRuns runsChosen;
  private final DriftWatch watch;
  private final TransitionWords words;
  private final Screen screen;
  private final PrintWriter out;

  DriftPage(UnitId unit, DriftRuns runsChosen, DriftWatch watch, BenchLog log, Screen screen) {
    this.unit = unit;
    this.runsChosen = runsChosen;
    this.watch = watch;
    this.words = new TransitionWords(log);
    this.screen = screen;
    this.out = screen.out();
  }

  /**
   * @param relays that the slower lines share
   */
  void print(List<String> relays) {
    int runs =
        watch.drifts().stream()
            .mapToInt(drift -> drift.series().points().size())
            .max()
            .orElseThrow();
    out.println(screen.strong("drift of " + unit + ", " + runs + " runs since its last rework"));
    leftOut(
        runsChosen.voided(), "VOID and left out: ", "the card moved after it was called settled");
    leftOut(
        runsChosen.elsewhere(), "left out: ", "another fixture has delays and a clock of its own");
    out.println();
    List<Drift> slower = watch.drifts().stream().filter(Drift::slower).toList();
    List<Drift> alarms =
        watch.drifts().stream().filter(drift -> drift.alarm() && !drift.slower()).toList();
    slower.forEach(this::slower);
    WearingRelays.words(relays).forEach(words -> out.println("  " + screen.bad(words)));
    for (Drift drift : alarms) {
      out.printf(
          drift.lasts()
              ? "  %s has moved by %s ms since the first %d runs, which is more than runs differ; not"
                  + " enough to call it getting slower%n"
              : "  %s moved by more than runs differ and came back: it is %s ms from the first %d"
                  + " runs now%n",
          name(drift),
          CompareWords.signed(drift.shiftUs()),
          DriftWatch.BASELINE);
    }
    if (slower.isEmpty() && alarms.isEmpty()) {
      out.println(
          "  no line has moved by more than its runs differ; the widest limit for one is "
              + CompareWords.millis(visibleUs())
              + " ms");
    }
    out.println();
    table();
  }

  private void leftOut(List<Long> runs, String what, String why) {
    if (!runs.isEmpty()) {
      out.println(
          "  "
              + screen.bad(what)
              + (runs.size() == 1 ? "run " : "runs ")
              + runs.stream().map(String::valueOf).collect(Collectors.joining(", "))
              + ", since "
              + why);
    }
  }

  private void slower(Drift drift) {
    out.println(
        "  "
            + screen.bad(
                String.format(
                    Locale.ROOT,
                    "%s is getting slower: %s ms in the first %d runs, %s now, %s ms a run, beyond the"
                        + " card's common %s",
                    name(drift),
                    CompareWords.millis(drift.baselineUs()),
                    DriftWatch.BASELINE,
                    CompareWords.millis(drift.baselineUs() + drift.shiftUs()),
                    CompareWords.signed(drift.slopeUs()),
                    CompareWords.signed(watch.commonUs().orElse(0)))));
    out.println("    in " + drives(drift.series()));
    plot(drift);
  }

  private String drives(Series series) {
    Point last = series.points().get(series.points().size() - 1);
    return words.drives(last.run(), series.vector());
  }

  private double visibleUs() {
    return watch.drifts().stream()
        .mapToDouble(drift -> 4 * drift.spreadUs() * Math.hypot(1 / 3.0, Math.sqrt(0.1)))
        .max()
        .orElse(0);
  }

  /** A column a run, o its median, - the baseline. */
  private void plot(Drift drift) {
    double[] medians = drift.series().points().stream().mapToDouble(Point::medianUs).toArray();
    double low = drift.baselineUs();
    double high = drift.baselineUs();
    for (double median : medians) {
      low = Math.min(low, median);
      high = Math.max(high, median);
    }
    double step = Math.max(1, (high - low) / (PLOT_ROWS - 1));
    for (int row = PLOT_ROWS - 1; row >= 0; row--) {
      StringBuilder line = new StringBuilder();
      boolean baseline = Math.round((drift.baselineUs() - low) / step) == row;
      for (double median : medians) {
        line.append(Math.round((median - low) / step) == row ? 'o' : baseline ? '-' : ' ');
      }
      out.printf(
          "    %9s |%s%n", CompareWords.millis(low + row * step), line.toString().stripTrailing());
    }
    out.println("              +" + "-".repeat(medians.length) + " run by run; - baseline");
  }

  private void table() {
    out.printf(
        "  %-8s %-8s %5s %9s %9s %9s %9s%n",
        "line", "going", "runs", "baseline", "now", "shift", "spread");
    for (Drift drift : watch.drifts()) {
      out.printf(
          "  %-8s %-8s %5d %9s %9s %9s %9s%s%n",
          drift.series().line().label(),
          drift.series().direction(),
          drift.series().points().size(),
          CompareWords.millis(drift.baselineUs()),
          CompareWords.millis(drift.baselineUs() + drift.shiftUs()),
          CompareWords.signed(drift.shiftUs()),
          CompareWords.millis(drift.spreadUs()),
          drift.slower()
              ? "  slower"
              : drift.lasts() ? "  moved" : drift.alarm() ? "  came back" : "");
    }
    out.println("  ms; now is the weighted mean of the last runs, spread what one run differs by");
  }

  private static String name(Drift drift) {
    return drift.series().line().label() + " " + drift.series().direction();
  }
}
