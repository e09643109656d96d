package cardproof.cli;

import cardproof.run.SupplyTally;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** What was measured of a supply, in words. */
final class SupplyWords {
  private SupplyWords() {}

  /**
   * {@code supply: lowest 11.98 V (vector 3), at most 1.2 A (vector 88)}; empty where unmeasured.
   */
  static Optional<String> summary(SupplyTally tally) {
    List<String> parts = new ArrayList<>();
    tally.lowestRail().ifPresent(p -> parts.add("lowest " + volts(p.value()) + at(p)));
    tally.highestCurrent().ifPresent(p -> parts.add("at most " + amps(p.value()) + at(p)));
    return parts.isEmpty() ? Optional.empty() : Optional.of("supply: " + String.join(", ", parts));
  }

  private static String at(SupplyTally.Peak peak) {
    return " (vector " + peak.vector() + ")";
  }

  static String volts(long millivolts) {
    return BigDecimal.valueOf(millivolts, 3).stripTrailingZeros().toPlainString() + " V";
  }

  static String amps(long milliamps) {
    return milliamps < 1_000
        ? milliamps + " mA"
        : BigDecimal.valueOf(milliamps, 3).stripTrailingZeros().toPlainString() + " A";
  }
}
