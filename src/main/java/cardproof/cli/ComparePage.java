package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.RunSummary;
import cardproof.timing.compare.LineShift;
import cardproof.timing.compare.TimeComparison;
import cardproof.timing.compare.VerdictChange;
import cardproof.timing.compare.VerdictComparison;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.stream.Collectors;

/**
 * A comparison for a reader at the bench: verdicts first, then the lines that changed, then all.
 */
final class ComparePage {
  private static final int CHANGES_SHOWN = 10;
  private static final int PLOT_HALF = 16;

  private final CompareView view;
  private final TransitionWords words;
  private final Screen screen;
  private final PrintWriter out;

  ComparePage(CompareView view, BenchLog log, Screen screen) {
    this.view = view;
    this.words = new TransitionWords(log);
    this.screen = screen;
    this.out = screen.out();
  }

  void print() {
    head();
    verdicts(view.verdicts());
    times(view.times());
  }

  private void head() {
    CompareSides sides = view.sides();
    RunSummary last = sides.after().get(sides.after().size() - 1);
    out.println(screen.strong("compare " + last.unit()));
    out.println("  before  " + runs(sides.before()));
    sides
        .rework()
        .ifPresent(
            rework -> out.println("  rework  " + When.text(rework.at()) + ": " + rework.note()));
    out.println("  after   " + runs(sides.after()));
    if (!sides.before().get(0).unit().equals(last.unit())) {
      out.println(
          screen.bad("two units: ")
              + "before is of "
              + sides.before().get(0).unit()
              + ", so that relays differ from the beginning");
    }
    if (!view.leftOut().isEmpty()) {
      out.println(
          screen.bad("VOID and left out of the times: ")
              + runs(view.leftOut())
              + ", where the card moved after it had been called settled");
    }
    out.println();
  }

  private static String runs(List<RunSummary> runs) {
    return (runs.size() == 1 ? "run " : "runs ")
        + runs.stream().map(run -> Long.toString(run.id())).collect(Collectors.joining(", "))
        + ", "
        + When.text(runs.get(0).started())
        + (runs.size() == 1 ? "" : " to " + When.text(runs.get(runs.size() - 1).started()));
  }

  private void verdicts(VerdictComparison verdicts) {
    String matched =
        Plural.of(verdicts.common(), "vector")
            + " in common, matched by "
            + CompareWords.match(verdicts.match());
    if (verdicts.common() == 0) {
      out.println("No vector in common: nothing is said of verdicts.");
    } else if (verdicts.changes().isEmpty()) {
      out.println(
          matched
              + (verdicts.sometimes().isEmpty()
                  ? ": no verdict changed."
                  : ": none fails always that passed before."));
    } else {
      out.println(matched + ":");
      out.printf(
          Locale.ROOT,
          "  %s now that passed before, %s now that failed (by chance: %.2g)%n",
          screen.bad(verdicts.worse().size() + (verdicts.worse().size() == 1 ? " fails" : " fail")),
          verdicts.better().size() + (verdicts.better().size() == 1 ? " passes" : " pass"),
          verdicts.pValue());
      changes(screen.bad("FAILS NOW "), verdicts.worse());
      changes("passes now", verdicts.better());
    }
    if (!verdicts.sometimes().isEmpty()) {
      out.printf(
          "  %s now and then that never failed before%n",
          screen.bad(
              verdicts.sometimes().size()
                  + (verdicts.sometimes().size() == 1 ? " fails" : " fail")));
      changes(screen.bad("FAILS SOMETIMES"), verdicts.sometimes());
    }
    if (verdicts.missing() > 0) {
      out.println(
          "  "
              + Plural.of(verdicts.missing(), "vector")
              + " judged before and not in any run after: nothing is said of "
              + (verdicts.missing() == 1 ? "it." : "them."));
    }
    out.println();
  }

  private void changes(String what, List<VerdictChange> changes) {
    for (VerdictChange change : changes.subList(0, Math.min(CHANGES_SHOWN, changes.size()))) {
      out.printf(
          "  %s  vector %d at %s: failed %d of %d before, %d of %d now%n",
          what,
          change.after().vector() + 1,
          words.place(change.after().run(), change.after().vector()),
          change.before().failed(),
          change.before().judged(),
          change.after().failed(),
          change.after().judged());
    }
    if (changes.size() > CHANGES_SHOWN) {
      out.println("  ... and " + (changes.size() - CHANGES_SHOWN) + " more");
    }
  }

  private void times(TimeComparison times) {
    if (times.lines().isEmpty()) {
      out.println(
          view.oneSideIsVoid()
              ? "Every run on one side is void: nothing is said of times."
              : "No transition in common that settled on both sides: nothing is said of times.");
      return;
    }
    out.println(screen.strong("settle times, each transition with itself"));
    times
        .changed()
        .forEach(line -> out.println("  " + strong(line, CompareWords.changed(line, times))));
    if (times.visibleUs().isPresent()) {
      out.printf(
          "  no change of %s ms or more seen%s%n",
          CompareWords.millis(times.visibleUs().getAsDouble()),
          times.changed().isEmpty() ? "" : " on the other lines");
    } else if (times.changed().isEmpty() && times.spreadUs().isPresent()) {
      out.println("  too few transitions in common to say anything");
    }
    out.println(
        "  "
            + (view.fixtures().size() > 1
                ? CompareWords.unlike(view.fixtures())
                : CompareWords.margin(times)));
    out.println();
    table(times);
  }

  private String strong(LineShift line, String text) {
    return line.change() == LineShift.Change.SLOWER ? screen.bad(text) : screen.good(text);
  }

  private void table(TimeComparison times) {
    OptionalDouble largestUs =
        times.lines().stream()
            .filter(line -> Double.isFinite(line.highUs()))
            .mapToDouble(LineShift::mostUs)
            .max();
    ShiftPlot plot = new ShiftPlot(PLOT_HALF, largestUs.orElse(0));
    out.printf(
        "  %-8s %-8s %5s %9s %9s %9s%s%n",
        "line",
        "going",
        "pairs",
        "shift ms",
        "from",
        "to",
        largestUs.isPresent() ? "  " + scale(CompareWords.millis(largestUs.getAsDouble())) : "");
    for (LineShift line : times.lines()) {
      boolean few = Double.isInfinite(line.highUs());
      out.printf(
          "  %-8s %-8s %5d %9s %9s %9s  %s%n",
          line.line().label(),
          line.direction(),
          line.shift().n(),
          CompareWords.signed(line.shift().estimate()),
          few ? "-" : CompareWords.signed(line.lowUs()),
          few ? "-" : CompareWords.signed(line.highUs()),
          few
              ? CompareWords.change(line.change())
              : plot.of(line.lowUs(), line.shift().estimate(), line.highUs()).stripTrailing()
                  + unsettled(line));
    }
  }

  private static String scale(String end) {
    return String.format("-%-" + (PLOT_HALF - 1) + "s0%" + PLOT_HALF + "s", end, "+" + end);
  }

  private static String unsettled(LineShift line) {
    return line.unsettledBefore() + line.unsettledAfter() == 0
        ? ""
        : "  not settled: "
            + line.unsettledBefore()
            + " before, "
            + line.unsettledAfter()
            + " after";
  }
}
