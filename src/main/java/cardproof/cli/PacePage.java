package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.text.Micros;
import cardproof.timing.pace.PaceReading;
import cardproof.timing.pace.PacedTransition;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** The clock that measured times allow, with what it rests on and what it does not cover. */
final class PacePage {
  private static final int PATH_SHOWN = 12;

  private final PaceFindings found;
  private final TransitionWords words;
  private final Screen screen;
  private final PrintWriter out;

  PacePage(PaceFindings found, BenchLog log, Screen screen) {
    this.found = found;
    this.words = new TransitionWords(log);
    this.screen = screen;
    this.out = screen.out();
  }

  /**
   * @param measuring the command that gets the repeats that are missing
   */
  void print(String measuring) {
    out.println(screen.strong("pace of " + found.unit()));
    if (!found.leftOut().isEmpty()) {
      out.println(
          screen.bad("VOID and left out: ")
              + "runs "
              + found.leftOut().stream().map(String::valueOf).collect(Collectors.joining(", ")));
    }
    out.println();
    transitions();
    out.println();
    if (found.periodUs().isPresent()) {
      clock(found.periodUs().getAsDouble());
    } else {
      nothing(measuring);
    }
  }

  private void transitions() {
    out.printf(
        "  the slowest %d of %s, ms until the last line had settled%n",
        found.slowest().size(), Plural.of(found.moved(), "transition"));
    out.printf(
        "  %2s  %-10s %-8s %6s %5s %9s %9s%n",
        "", "last", "going", "n", "runs", "median", "longest");
    int place = 1;
    for (PacedTransition each : found.slowest()) {
      out.printf(
          "  %2d  %-10s %-8s %6d %5d %9s %9s%n      %s%n",
          place++,
          each.line().label(),
          each.endsHigh() ? "rising" : "falling",
          each.n(),
          each.runs().size(),
          millis(each.timesUs()[each.n() / 2]),
          millis(each.largestUs()),
          words.drives(each.run(), each.vector()));
    }
  }

  private void clock(double periodUs) {
    PacedTransition slowest = found.slowest().get(0);
    out.println(
        screen.good(
            String.format(
                Locale.ROOT, "%.2f Hz: one step every %s ms", 1e6 / periodUs, millis(periodUs))));
    if (found.screenedUs() > slowest.largestUs()) {
      out.printf(
          "  %s ms, the longest settle seen when the transitions were chosen; of the repeats%n",
          millis(found.longestUs()));
    }
    out.printf(
        Locale.ROOT,
        "  %s ms, the longest settle (%s %s, run %d, vector %d)%n",
        millis(slowest.largestUs()),
        slowest.line().label(),
        slowest.endsHigh() ? "rising" : "falling",
        slowest.run(),
        slowest.vector() + 1);
    path();
    out.printf(
        Locale.ROOT,
        "  + %s ms, a guard of %s %%, which is a guess for a hot coil and a low supply: copper gains"
            + " 0.393 %% of resistance a kelvin%n",
        millis(found.guardUs()),
        plain(found.guardPercent()));
    out.println(
        found.receiverUs() == 0
            ? "  + nothing for the card that receives: give its set-up and hold time with --receiver"
            : "  + " + millis(found.receiverUs()) + " ms for the card that receives");
    out.println();
    out.printf(
        Locale.ROOT,
        "In %s the longest of at least %d repeats is above %s %% of the settles of its transition in that"
            + " run, at 95 %% confidence for each alone.%n",
        Plural.of(found.boundedRuns(), "run"),
        found.wanted(),
        plain(100 * found.share()));
    if (found.boundedCycles() > 1) {
      out.printf(
          Locale.ROOT,
          "The highest of %d such power cycles is above the longest of %.0f %% of future ones, at 95 %%"
              + " confidence; 59 would make that 95 %%.%n",
          found.boundedCycles(),
          100 * PaceReading.shareOfFutureRuns(found.boundedCycles()));
    } else {
      out.println("Of other power cycles nothing is said: measure over several.");
    }
    conditions();
  }

  /** The last of a long way: what moved at its beginning is seen in the drives. */
  private void path() {
    List<String> path = found.path();
    if (!path.isEmpty()) {
      int from = Math.max(0, path.size() - PATH_SHOWN);
      out.println(
          "    by way of "
              + (from > 0 ? from + " relays, then " : "")
              + String.join(", ", path.subList(from, path.size())));
    }
  }

  private void conditions() {
    out.printf(
        Locale.ROOT,
        "Measured on %s, firmware %s, sampled every %s; %s known of, %s.%n",
        found.fixture().board(),
        found.fixture().firmware(),
        Micros.text(Math.max(1, found.fixture().samplingNs() / 1_000)),
        Plural.of(found.powerCycles(), "power cycle"),
        found.conditions().words());
    out.println(
        "Not covered: transitions that the plan does not make, lines that are not watched, another"
            + " supply voltage or warmth than it was.");
  }

  private void nothing(String measuring) {
    if (found.unsettled() > 0) {
      out.println(
          screen.bad("no clock: ")
              + Plural.of(found.unsettled(), "settle")
              + " of these transitions had not ended when watching did");
      return;
    }
    if (found.missing() > 0) {
      out.println(
          screen.bad("no clock: ")
              + Plural.of(found.missing(), "transition")
              + " did not come about again as when they were chosen: before them the card showed"
              + " something else. Look at the runs with 'cardproof log --run'");
      return;
    }
    PacedTransition few =
        found.slowest().stream()
            .filter(each -> each.boundedRuns(found.share()) == 0)
            .findFirst()
            .orElseThrow();
    int most = few.runs().stream().mapToInt(run -> run.n()).max().orElse(0);
    out.printf(
        Locale.ROOT,
        "%sno run has %d repeats of each of these transitions (%s %s has %d at most), which a bound"
            + " for %s %% takes.%n",
        screen.bad("no clock yet: "),
        found.wanted(),
        few.line().label(),
        few.endsHigh() ? "rising" : "falling",
        most,
        plain(100 * found.share()));
    out.println("Measure them: " + measuring);
  }

  private static String plain(double value) {
    return value == Math.rint(value)
        ? String.format(Locale.ROOT, "%.0f", value)
        : String.format(Locale.ROOT, "%.1f", value);
  }

  private static String millis(double us) {
    return Double.isInfinite(us) ? "not ended" : Micros.millis(Math.round(us));
  }
}
