package cardproof.cli;

import cardproof.log.LineName;
import cardproof.log.StepTitle;
import cardproof.log.SweepLine;
import cardproof.log.SweepRecord;
import cardproof.text.Micros;
import java.io.PrintWriter;
import java.math.BigDecimal;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/** What sweeps found: one table each, a line and a direction a row, the worst of them below it. */
final class SweepPrinter {
  private final Screen screen;
  private final PrintWriter out;

  SweepPrinter(Screen screen) {
    this.screen = screen;
    this.out = screen.out();
  }

  void print(List<SweepRecord> sweeps, List<LineName> lines, List<StepTitle> steps) {
    for (SweepRecord sweep : sweeps) {
      String where =
          steps.stream()
              .filter(step -> step.step() == sweep.step())
              .map(step -> step.file() + ":" + step.line())
              .findFirst()
              .orElse("");
      print(sweep, lines, where);
    }
  }

  private void print(SweepRecord sweep, List<LineName> lines, String where) {
    out.println(screen.strong(sweep.what() + ", ms") + "   " + where);
    out.printf(
        "  %-8s %-8s %-8s %10s %6s %10s %10s %7s%n",
        "line", "pin", "going", "worked", "n", "failed", "mixed from", "trials");
    for (SweepLine line : sweep.lines()) {
      LineName name = lines.get(line.line());
      out.printf(
          "  %-8s %-8s %-8s %10s %6d %10s %10s %7d%s%s%n",
          name.label(),
          name.pin(),
          line.rising() ? "rising" : "falling",
          line.workedUs().isPresent() ? millis(sweep, line.workedUs()) : "never",
          line.atEdge(),
          line.failedUs().isPresent() ? millis(sweep, line.failedUs()) : "never",
          line.mixed() ? millis(sweep, line.everWorkedUs()) : "-",
          line.trials(),
          fails(sweep, line) ? "  " + screen.bad("FAILS") : "",
          LineLabels.isPrinted(name) ? "  " + LineLabels.place(name) : "");
    }
    out.printf(
        "  worked: the shortest from which on it always did, n times there; failed: the longest at which"
            + " it did not%n  %s to %s in steps of %s, %s%n",
        Micros.signed(sweep.fromUs()),
        Micros.signed(sweep.toUs()),
        Micros.signed(sweep.resolutionUs()),
        sweep.cutShort()
            ? screen.bad("cut short after " + sweep.trials() + " of " + sweep.planned() + " trials")
            : Plural.of(sweep.trials(), "trial"));
    out.println("  " + worst(sweep, lines));
    out.println();
  }

  private String worst(SweepRecord sweep, List<LineName> lines) {
    String limit =
        sweep.atMostUs().isPresent()
            ? ", wanted at most " + Micros.signed(sweep.atMostUs().getAsLong())
            : "";
    if (sweep.lines().isEmpty()) {
      return "no line showed anything: none began with the other level" + limit;
    }
    Optional<SweepLine> never =
        sweep.lines().stream().filter(line -> line.workedUs().isEmpty()).findFirst();
    if (never.isPresent()) {
      return screen.bad("worst: never worked to the end of the range")
          + " ("
          + words(never.get(), lines)
          + ")"
          + limit;
    }
    SweepLine worst =
        sweep.lines().stream()
            .max(Comparator.comparingLong(line -> line.workedUs().getAsLong()))
            .orElseThrow();
    return screen.strong("worst: " + Micros.signed(worst.workedUs().getAsLong()))
        + " ("
        + words(worst, lines)
        + ")"
        + limit
        + (sweep.atMostUs().isEmpty()
            ? ""
            : sweep.lines().stream().anyMatch(line -> fails(sweep, line))
                ? ": " + screen.bad("FAILS")
                : ": " + screen.good("holds"));
  }

  private static String words(SweepLine line, List<LineName> lines) {
    return lines.get(line.line()).label() + (line.rising() ? " rising" : " falling");
  }

  /** Whether it failed where it must work. */
  private static boolean fails(SweepRecord sweep, SweepLine line) {
    return line.failedUs().isPresent()
        && line.failedUs().getAsLong() >= sweep.atMostUs().orElse(sweep.toUs());
  }

  /**
   * As many decimals as the times that were tried have, so that figures stand under one another.
   */
  private static String millis(SweepRecord sweep, OptionalLong us) {
    int decimals = Math.max(decimals(sweep.resolutionUs()), decimals(sweep.toUs()));
    return BigDecimal.valueOf(us.getAsLong(), 3).setScale(decimals).toPlainString();
  }

  private static int decimals(long us) {
    return Math.max(0, BigDecimal.valueOf(us, 3).stripTrailingZeros().scale());
  }
}
