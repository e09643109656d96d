package cardproof.files.draft;

import cardproof.bits.BitRange;
import cardproof.card.Bus;
import cardproof.card.Line;
import cardproof.plan.sight.LineFault;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** Faults of driven lines, in words for a plan's comments. */
final class FaultWords {
  private FaultWords() {}

  /** What a step shows on an output that nothing before it does, of lines that are stuck. */
  static String claim(Bus output, List<LineFault> faults, BitSet found) {
    List<LineFault> finds = found.stream().mapToObj(faults::get).toList();
    List<String> parts = new ArrayList<>();
    for (boolean atSupply : new boolean[] {false, true}) {
      List<Line> lines = stuck(finds, atSupply);
      if (!lines.isEmpty()) {
        parts.add(lines(lines) + " stuck at " + (atSupply ? "supply" : "ground"));
      }
    }
    return "Shows on "
        + output.name()
        + " what nothing above does: "
        + String.join("; ", parts)
        + ".";
  }

  static List<Line> stuck(Collection<LineFault> faults, boolean atSupply) {
    return faults.stream()
        .filter(f -> f instanceof LineFault.Stuck stuck && stuck.atSupply() == atSupply)
        .map(LineFault::line)
        .toList();
  }

  /** {@code A[11:8], A[3], CI}. */
  static String lines(Collection<Line> lines) {
    Map<Bus, Long> bits = new LinkedHashMap<>();
    lines.forEach(line -> bits.merge(line.bus(), 1L << line.bit(), (one, other) -> one | other));
    return bits.entrySet().stream()
        .flatMap(
            entry ->
                BitRange.of(entry.getValue()).stream()
                    .map(range -> range.of(entry.getKey().name(), entry.getKey().width())))
        .collect(Collectors.joining(", "));
  }
}
