package cardproof.card.wiring.review;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;

/**
 * Which relays' contacts decide whether a relay's coil is fed, and what follows from it: groups of
 * relays that feed one another, and how many stages after the drives a relay may still move.
 *
 * <p>Once all that feed a group from outside have made their last move, a change travels in it only
 * from relay to relay that still feed one another {@link AtRest then}, which bounds its last move.
 * Where that cannot be found out, or where they feed one another in a circle even then, every relay
 * of the circle is taken to move once. Immutable.
 */
final class Dependencies {
  private final List<BitSet> feeders = new ArrayList<>();
  private final List<int[]> groups;
  private final int[] groupOf;
  private final int[] depth;
  private final List<List<Integer>> inGroup = new ArrayList<>();
  private final int[] deepestFeeder;

  Dependencies(Circuit circuit, Networks networks, AnyWay anyWay) {
    Feeds feeds = new Feeds(circuit, networks, anyWay);
    int relays = circuit.relays().size();
    for (int r = 0; r < relays; r++) {
      feeders.add(feeds.relays(r));
      inGroup.add(List.of());
    }
    this.groups = new Groups(feeders).inOrder();
    this.groupOf = new int[relays];
    for (int g = 0; g < groups.size(); g++) {
      for (int relay : groups.get(g)) {
        groupOf[relay] = g;
      }
    }
    this.depth = new int[relays];
    this.deepestFeeder = new int[groups.size()];
    for (int g = 0; g < groups.size(); g++) {
      measure(g, circuit, feeds);
    }
  }

  private void measure(int number, Circuit circuit, Feeds feeds) {
    int[] group = groups.get(number);
    deepestFeeder[number] = Link.NO_RELAY;
    int deepest = 0;
    BitSet outside = feedersOf(group);
    for (int f = outside.nextSetBit(0); f >= 0; f = outside.nextSetBit(f + 1)) {
      if (depth[f] > deepest) {
        deepest = depth[f];
        deepestFeeder[number] = f;
      }
    }
    List<List<Integer>> chains = chainsIn(group, circuit, feeds);
    for (int i = 0; i < group.length; i++) {
      inGroup.set(group[i], chains.get(i));
      depth[group[i]] = deepest + chains.get(i).size();
    }
  }

  /** By place in the group: the longest chain within the group that ends in the relay. */
  private List<List<Integer>> chainsIn(int[] group, Circuit circuit, Feeds feeds) {
    if (group.length == 1) {
      return List.of(List.of(group[0]));
    }
    Optional<List<BitSet>> atRest = new AtRest(circuit, feeds, this::follows).feeders(group);
    List<BitSet> within = atRest.orElseGet(() -> everyone(group.length));
    List<List<Integer>> chains = new ArrayList<>();
    for (int i = 0; i < group.length; i++) {
      chains.add(List.of());
    }
    for (int[] circle : new Groups(within).inOrder()) {
      BitSet before = new BitSet();
      for (int place : circle) {
        before.or(within.get(place));
      }
      for (int place : circle) {
        before.clear(place);
      }
      List<Integer> longest = List.of();
      for (int b = before.nextSetBit(0); b >= 0; b = before.nextSetBit(b + 1)) {
        longest = chains.get(b).size() > longest.size() ? chains.get(b) : longest;
      }
      for (int place : circle) {
        chains.set(place, ending(longest, circle, place, group));
      }
    }
    return chains;
  }

  private static List<BitSet> everyone(int size) {
    List<BitSet> all = new ArrayList<>();
    for (int i = 0; i < size; i++) {
      BitSet others = new BitSet();
      others.set(0, size);
      all.add(others);
    }
    return all;
  }

  private static List<Integer> ending(List<Integer> before, int[] circle, int place, int[] group) {
    List<Integer> chain = new ArrayList<>(before);
    for (int other : circle) {
      if (other != place) {
        chain.add(group[other]);
      }
    }
    chain.add(group[place]);
    return List.copyOf(chain);
  }

  private boolean follows(int relay) {
    return groups.get(groupOf[relay]).length == 1 && !feedsItself(relay);
  }

  /** Relays that feed some relay of a group and are not of it. */
  BitSet feedersOf(int[] group) {
    BitSet outside = new BitSet();
    for (int relay : group) {
      outside.or(feeders.get(relay));
    }
    for (int relay : group) {
      outside.clear(relay);
    }
    return outside;
  }

  /** Whether a relay's own contacts have a say in whether its coil is fed, as where it holds. */
  boolean feedsItself(int relay) {
    return feeders.get(relay).get(relay);
  }

  int relays() {
    return groupOf.length;
  }

  /** Relays that feed one another; each comes after all that feed it. */
  List<int[]> groups() {
    return groups;
  }

  /** Stages after a change of the drives by which a relay has made its last move. */
  int depth(int relay) {
    return depth[relay];
  }

  /** The longest chain of relays that ends in one, as long as its depth. */
  List<Integer> chainTo(int relay) {
    List<List<Integer>> parts = new ArrayList<>();
    for (int end = relay; end != Link.NO_RELAY; end = deepestFeeder[groupOf[end]]) {
      parts.add(0, inGroup.get(end));
    }
    return parts.stream().flatMap(List::stream).toList();
  }

  /** The longest chain of relays; of equals the first of the file. */
  List<Integer> longest() {
    int end = Link.NO_RELAY;
    for (int relay = 0; relay < groupOf.length; relay++) {
      if (end == Link.NO_RELAY || depth[relay] > depth[end]) {
        end = relay;
      }
    }
    return end == Link.NO_RELAY ? List.of() : chainTo(end);
  }
}
