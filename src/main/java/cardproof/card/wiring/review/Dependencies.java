package cardproof.card.wiring.review;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;

/**
 * Which relays' contacts decide whether a relay's coil is fed, and what follows from it: groups of
 * relays that feed one another, and how many stages after the drives a relay may still move.
 *
 * <p>Once all that feed a group from outside have made their last move, lines and gates stand as
 * they will, at one assignment out of all there are. From then on a change travels in the group
 * only from relay to relay that feed one another under {@link AtRest that assignment}; so a relay
 * has made its last move one stage after those that feed it then, and the longest chain of any one
 * assignment bounds them all. The same goes for a whole {@link Regions region}. Where relays feed
 * one another in a circle even under one assignment, or where that cannot be found out, every relay
 * of the circle is taken to move once. Immutable.
 */
final class Dependencies {
  private final List<BitSet> feeders = new ArrayList<>();
  private final List<int[]> groups;
  private final int[] groupOf;
  private final Trail[] to;
  private final List<Block> blocks = new ArrayList<>();

  Dependencies(Circuit circuit, Networks networks, AnyWay anyWay) {
    Feeds feeds = new Feeds(circuit, networks, anyWay);
    int relays = circuit.relays().size();
    for (int r = 0; r < relays; r++) {
      feeders.add(feeds.relays(r));
    }
    this.groups = new Groups(feeders).inOrder();
    this.groupOf = new int[relays];
    BitSet keeps = new BitSet();
    for (int g = 0; g < groups.size(); g++) {
      for (int relay : groups.get(g)) {
        groupOf[relay] = g;
      }
      keeps.set(g, !follows(groups.get(g)[0]));
    }
    this.to = new Trail[relays];
    Walk walk = new Walk(to);
    for (int[] region : new Regions(feeders, groups, groupOf, keeps).inOrder()) {
      if (region.length > 1) {
        int[] all =
            Arrays.stream(region).mapToObj(groups::get).flatMapToInt(Arrays::stream).toArray();
        add(all, circuit, feeds, walk);
      }
      for (int group : region) {
        add(groups.get(group), circuit, feeds, walk);
      }
    }
  }

  private void add(int[] relays, Circuit circuit, Feeds feeds, Walk walk) {
    Phases phases =
        relays.length == 1
            ? Phases.alone(relays[0])
            : new AtRest(circuit, feeds, groups, this::follows).phases(relays);
    Trail outside = longestOf(feedersOf(relays), to);
    Block block = new Block(relays, phases, outside);
    blocks.add(block);
    walk.through(block, (circle, now) -> Trail.longer(outside, longestOf(circle.feeders(), now)));
  }

  private static Trail longestOf(BitSet relays, Trail[] trails) {
    return relays.stream().mapToObj(relay -> trails[relay]).reduce(Trail.NONE, Trail::longer);
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

  /**
   * Each comes after all that feed it. A relay may be in two, a region and a group in it; what
   * follows from either holds.
   */
  List<Block> blocks() {
    return blocks;
  }

  /** Whether no relays feed one another in a circle at any one time once all else is at rest. */
  boolean haveNoCircles() {
    return blocks.stream().noneMatch(block -> block.phases().haveCircles());
  }

  /** Stages after a change of the drives by which a relay has made its last move. */
  int depth(int relay) {
    return to[relay].stages();
  }

  /** The longest chain of relays; of equals the first of the file. */
  List<Integer> longest() {
    return Arrays.stream(to).reduce(Trail.NONE, Trail::longer).relays();
  }
}
