package cardproof.card.wiring.review;

import cardproof.text.Position;
import cardproof.text.Problem;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/** Gathers findings; of one kind no more than anybody reads. Not thread safe. */
final class Findings {
  private static final int MOST_OF_A_KIND = 20;

  private record Placed(Position at, Finding finding) {}

  private final List<Placed> all = new ArrayList<>();
  private final Map<Kind, Integer> counts = new EnumMap<>(Kind.class);
  private final Position wiring;

  Findings(Position wiring) {
    this.wiring = wiring;
  }

  void add(Kind kind, Position at, String found, String wanted, String next) {
    if (counts.merge(kind, 1, Integer::sum) <= MOST_OF_A_KIND) {
      all.add(new Placed(at, new Finding(kind, Problem.at(at, found, wanted, next))));
    }
  }

  /** Errors first, then by kind and place. */
  List<Finding> sorted() {
    List<Placed> sorted = new ArrayList<>(all);
    counts.forEach(
        (kind, count) -> {
          if (count > MOST_OF_A_KIND) {
            String more = count - MOST_OF_A_KIND + " more of the kind '" + kind + "'";
            sorted.add(new Placed(wiring, new Finding(kind, Problem.at(wiring, more, "", ""))));
          }
        });
    sorted.sort(
        Comparator.comparing((Placed one) -> one.finding().severity())
            .thenComparing(one -> one.finding().kind())
            .thenComparing(one -> one.finding().problem().found().endsWith("'"))
            .thenComparing(Placed::at));
    return sorted.stream().map(Placed::finding).toList();
  }
}
