package cardproof.report.table;

import cardproof.log.BusWord;
import cardproof.log.LineName;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;

/**
 * Sets of lines as words of their buses: {@code A=0x00F CI=0}; {@code x} where a line is in none.
 */
final class BusWords {
  private final Map<String, List<LineName>> buses = new LinkedHashMap<>();

  /**
   * @param which the lines that are told of
   */
  BusWords(List<LineName> lines, Predicate<LineName> which) {
    for (LineName line : lines) {
      if (which.test(line)) {
        buses.computeIfAbsent(line.bus(), bus -> new ArrayList<>()).add(line);
      }
    }
  }

  /**
   * @param level lines that are 1
   * @param known lines whose level is told; a bus of which none is known is left out
   */
  String of(BitSet level, BitSet known) {
    List<String> words = new ArrayList<>();
    buses.forEach(
        (bus, lines) -> {
          if (lines.stream().anyMatch(line -> known.get(line.line()))) {
            words.add(bus + "=" + BusWord.of(lines, level, known));
          }
        });
    return String.join(" ", words);
  }
}
