package cardproof.card.wiring.review;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;

/**
 * Which relays of a group feed one another once all others have come to rest: a relation for every
 * way in which the lines and the relays outside may then stand, equal ones taken once. Not changed
 * once made.
 */
final class Phases {
  /**
   * Relays that feed one another in one phase, or one alone.
   *
   * @param feeders relays of the group that feed some of them in this phase and are not of them
   */
  record Circle(int[] relays, BitSet feeders) {}

  private final int[] group;
  private final List<Map<Integer, BitSet>> feeding;
  private final List<Integer> different = new ArrayList<>();

  /**
   * @param feeding by place in the group: the places of those that feed it, each with the
   *     assignments under which it does
   */
  Phases(int[] group, List<Map<Integer, BitSet>> feeding, int assignments) {
    this.group = group;
    this.feeding = feeding;
    Set<BitSet> conditions = new HashSet<>();
    feeding.forEach(feeders -> conditions.addAll(feeders.values()));
    int[] kind = new int[assignments];
    for (BitSet condition : conditions) {
      Map<Integer, Integer> split = new HashMap<>();
      for (int a = 0; a < assignments; a++) {
        int halved = 2 * kind[a] + (condition.get(a) ? 1 : 0);
        kind[a] = split.computeIfAbsent(halved, k -> split.size());
      }
    }
    Set<Integer> known = new HashSet<>();
    for (int a = 0; a < assignments; a++) {
      if (known.add(kind[a])) {
        different.add(a);
      }
    }
  }

  /** Of a relay that is in no group with others. */
  static Phases alone(int relay) {
    return new Phases(new int[] {relay}, List.of(Map.of()), 1);
  }

  int count() {
    return different.size();
  }

  /** Whether relays feed one another in a circle even in one phase. */
  boolean haveCircles() {
    return IntStream.range(0, count())
        .mapToObj(this::circles)
        .flatMap(List::stream)
        .anyMatch(circle -> circle.relays().length > 1);
  }

  /** Each comes after all that feed it; relays within one ascend. */
  List<Circle> circles(int phase) {
    List<BitSet> feeders = feeders(different.get(phase));
    List<Circle> circles = new ArrayList<>();
    for (int[] places : new Groups(feeders).inOrder()) {
      BitSet before = new BitSet();
      int[] relays = new int[places.length];
      for (int i = 0; i < places.length; i++) {
        relays[i] = group[places[i]];
        feeders.get(places[i]).stream().forEach(place -> before.set(group[place]));
      }
      for (int relay : relays) {
        before.clear(relay);
      }
      circles.add(new Circle(relays, before));
    }
    return circles;
  }

  private List<BitSet> feeders(int assignment) {
    List<BitSet> all = new ArrayList<>();
    for (Map<Integer, BitSet> feeders : feeding) {
      BitSet now = new BitSet();
      feeders.forEach((place, when) -> now.set(place, when.get(assignment)));
      all.add(now);
    }
    return all;
  }
}
