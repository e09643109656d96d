package cardproof.cli;

import cardproof.timing.compare.LineShift;
import cardproof.timing.compare.TimeComparison;
import cardproof.timing.compare.VerdictComparison;
import java.util.Collection;
import java.util.DoubleSummaryStatistics;
import java.util.Locale;
import java.util.stream.Collectors;

/** What may be said of a change, and no more: never that something is the same. */
final class CompareWords {
  private CompareWords() {}

  static String change(LineShift.Change change) {
    return switch (change) {
      case SLOWER -> "slower";
      case FASTER -> "faster";
      case NONE -> "none seen";
      case TOO_FEW -> "too few";
      case NO_MARGIN -> "not known";
    };
  }

  static String match(VerdictComparison.Match match) {
    return switch (match) {
      case NUMBER -> "number";
      case PLACE -> "their place in the plan, since other steps of it were chosen";
      case TRANSITION ->
          "what was driven and seen before and is driven then, since the files differ";
    };
  }

  /** Why times of several fixtures are not held against one another. */
  static String unlike(Collection<UsedFixture> fixtures) {
    return "nothing is claimed: the runs were made on "
        + fixtures.size()
        + " fixtures, whose delays and clocks are their own ("
        + fixtures.stream().map(UsedFixture::toString).collect(Collectors.joining("; "))
        + ")";
  }

  /** {@code S3 rising is 1.2 ms slower (0.9 to 1.5), beyond the card's common +0.3}. */
  static String changed(LineShift line, TimeComparison times) {
    double us = line.shift().estimate() - times.removedUs();
    double low = line.lowUs() - times.removedUs();
    double high = line.highUs() - times.removedUs();
    boolean slower = line.change() == LineShift.Change.SLOWER;
    return String.format(
        Locale.ROOT,
        "%s %s is %s ms %s (%s to %s), %s in a tenth of its transitions; %s",
        line.line().label(),
        line.direction(),
        millis(Math.abs(us)),
        slower ? "slower" : "faster",
        millis(slower ? low : -high),
        millis(slower ? high : -low),
        millis(Math.abs(line.tenthUs() - times.removedUs())),
        times.removedUs() != 0
            ? "that is beyond the " + signed(times.removedUs()) + " of the untouched lines"
            : "the card's common shift is " + signed(times.commonUs().orElse(0)));
  }

  /** Where the margins come from; that there are none. */
  static String margin(TimeComparison times) {
    if (times.spreadUs().isEmpty()) {
      return "nothing is claimed: how much runs of this unit differ by themselves is not known; run the"
          + " plan three times on either side";
    }
    DoubleSummaryStatistics margins =
        times.lines().stream().mapToDouble(LineShift::marginUs).summaryStatistics();
    String least = millis(margins.getMin());
    String most = millis(margins.getMax());
    return "margin "
        + (least.equals(most) ? least : least + " to " + most)
        + " ms; runs to which nothing was done differ by "
        + millis(times.spreadUs().getAsDouble())
        + " ms (one standard deviation)";
  }

  static String millis(double us) {
    return String.format(Locale.ROOT, Math.abs(us) < 10_000 ? "%.2f" : "%.1f", us / 1_000);
  }

  static String signed(double us) {
    return (us < 0 ? "" : "+") + millis(us);
  }
}
