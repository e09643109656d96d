package cardproof.cli;

import cardproof.log.Verdict;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * Vectors by verdict in words, worst first; those never tested are told apart by what was planned.
 */
final class VerdictCounts {
  private VerdictCounts() {}

  static String text(Map<Verdict, Long> counts) {
    return counts.entrySet().stream()
        .filter(entry -> entry.getKey() != Verdict.UNTESTED && entry.getValue() > 0)
        .map(entry -> entry.getValue() + " " + entry.getKey().word())
        .collect(Collectors.joining(", "));
  }
}
