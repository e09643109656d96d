package cardproof.card.wiring.review;

import cardproof.card.wiring.Terminal;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/**
 * Which relays' contacts decide whether a relay's coil is fed, and what follows from it: groups of
 * relays that feed one another, and how many stages after the drives a relay may still move.
 * Immutable.
 */
final class Dependencies {
  private final List<BitSet> feeders = new ArrayList<>();
  private final List<int[]> groups;
  private final int[] groupOf;
  private final int[] depth;
  private final int[] deepestFeeder;

  Dependencies(Circuit circuit, Networks networks, AnyWay anyWay) {
    int relays = circuit.relays().size();
    for (int r = 0; r < relays; r++) {
      BitSet feeding = new BitSet();
      Load coil = circuit.coil(r);
      add(coil.first(), coil.second(), networks, anyWay, feeding);
      add(coil.second(), coil.first(), networks, anyWay, feeding);
      feeders.add(feeding);
    }
    this.groups = new Groups(feeders).inOrder();
    this.groupOf = new int[relays];
    for (int g = 0; g < groups.size(); g++) {
      for (int relay : groups.get(g)) {
        groupOf[relay] = g;
      }
    }
    this.depth = new int[groups.size()];
    this.deepestFeeder = new int[groups.size()];
    for (int g = 0; g < groups.size(); g++) {
      measure(g);
    }
  }

  private static void add(int up, int down, Networks networks, AnyWay anyWay, BitSet feeding) {
    if (up != Terminal.NOT_WIRED && anyWay.canBeHigh(up) && anyWay.canBeLow(down)) {
      feeding.or(networks.toSupply(up).relays());
      feeding.or(networks.toGround(down).relays());
    }
  }

  private void measure(int group) {
    deepestFeeder[group] = Link.NO_RELAY;
    int deepest = 0;
    BitSet outside = feedersOf(groups.get(group));
    for (int f = outside.nextSetBit(0); f >= 0; f = outside.nextSetBit(f + 1)) {
      if (depth[groupOf[f]] > deepest) {
        deepest = depth[groupOf[f]];
        deepestFeeder[group] = f;
      }
    }
    depth[group] = deepest + groups.get(group).length;
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

  /** Relays that feed one another; each comes after all that feed it. */
  List<int[]> groups() {
    return groups;
  }

  /**
   * Whether a relay's own contacts have a say in whether its coil is fed, as where it holds itself.
   */
  boolean feedsItself(int relay) {
    return feeders.get(relay).get(relay);
  }

  int relays() {
    return groupOf.length;
  }

  /**
   * Stages after a change of the drives by which a relay has made its last move: the longest chain
   * of relays that ends in it. Every relay of a group is taken to move once.
   */
  int depth(int relay) {
    return depth[groupOf[relay]];
  }

  /** The longest chain of relays; those of a group are named one after the other. */
  List<Integer> longest() {
    int end = Link.NO_RELAY;
    for (int relay = 0; relay < groupOf.length; relay++) {
      if (end == Link.NO_RELAY || depth(relay) > depth(end)) {
        end = relay;
      }
    }
    List<Integer> chain = new ArrayList<>();
    while (end != Link.NO_RELAY) {
      int[] group = groups.get(groupOf[end]);
      for (int i = group.length - 1; i >= 0; i--) {
        chain.add(0, group[i]);
      }
      end = deepestFeeder[groupOf[end]];
    }
    return chain;
  }
}
