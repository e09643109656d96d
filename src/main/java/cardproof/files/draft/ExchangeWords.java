package cardproof.files.draft;

import cardproof.card.Line;
import cardproof.plan.sight.LineFault;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeMap;

/**
 * Pairs of lines in few words: lines any two of which are a pair are named together, so that the 28
 * pairs of eight alike lines read {@code A[7:0]}.
 */
final class ExchangeWords {
  private ExchangeWords() {}

  /** One text for each set of lines, such as {@code A[0], B[0], CI}; none where there are none. */
  static List<String> of(Collection<LineFault> faults) {
    Set<Set<Line>> pairs = new HashSet<>();
    TreeMap<Integer, Line> lines = new TreeMap<>();
    for (LineFault fault : faults) {
      if (fault instanceof LineFault.Exchanged both) {
        pairs.add(Set.of(both.line(), both.other()));
        lines.put(both.line().index(), both.line());
        lines.put(both.other().index(), both.other());
      }
    }
    List<String> texts = new ArrayList<>();
    while (!pairs.isEmpty()) {
      List<Line> together = largest(lines.values(), pairs);
      texts.add(
          together.size() == 2
              ? FaultWords.lines(together.subList(0, 1))
                  + " and "
                  + FaultWords.lines(together.subList(1, 2))
              : FaultWords.lines(together));
      pairs.removeIf(together::containsAll);
    }
    return texts;
  }

  /** Begun with the first line that is still in a pair, all that go with every one before them. */
  private static List<Line> largest(Collection<Line> lines, Set<Set<Line>> pairs) {
    List<Line> together = new ArrayList<>();
    for (Line line : lines) {
      boolean begins = together.isEmpty() && pairs.stream().anyMatch(pair -> pair.contains(line));
      boolean fits =
          !together.isEmpty()
              && together.stream().allMatch(other -> pairs.contains(Set.of(line, other)));
      if (begins || fits) {
        together.add(line);
      }
    }
    return together;
  }
}
