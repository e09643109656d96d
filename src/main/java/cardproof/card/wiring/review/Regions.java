package cardproof.card.wiring.review;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/**
 * Groups and holding relays that one feeds another, with all that lies between them, as regions. In
 * a counter every bit may be a group for itself, and each feeds the next: taken one by one they
 * would seem to wait for one another through both ranks, which no one position of the gates allows.
 * Nothing outside a region is both fed by it and feeds it.
 */
final class Regions {
  private final List<BitSet> feeders;
  private final List<int[]> groups;
  private final int[] groupOf;
  private final BitSet within = new BitSet();

  /**
   * @param groups each after all that feed it
   * @param keeps of these, those in which a state may last: groups of several, and holding relays
   */
  Regions(List<BitSet> feeders, List<int[]> groups, int[] groupOf, BitSet keeps) {
    this.feeders = feeders;
    this.groups = groups;
    this.groupOf = groupOf;
    BitSet after = (BitSet) keeps.clone();
    BitSet before = (BitSet) keeps.clone();
    for (int g = 0; g < groups.size(); g++) {
      if (feedersOf(g).intersects(after)) {
        after.set(g);
      }
    }
    for (int g = groups.size() - 1; g >= 0; g--) {
      if (before.get(g)) {
        before.or(feedersOf(g));
      }
    }
    within.or(after);
    within.and(before);
  }

  /** Groups that feed some relay of a group, by number. */
  private BitSet feedersOf(int group) {
    BitSet all = new BitSet();
    for (int relay : groups.get(group)) {
      feeders.get(relay).stream().forEach(feeder -> all.set(groupOf[feeder]));
    }
    return all;
  }

  /**
   * All groups by number, those of a region together, ascending; each list comes after all that
   * feed it.
   */
  List<int[]> inOrder() {
    List<BitSet> joined = new ArrayList<>();
    for (int g = 0; g < groups.size(); g++) {
      joined.add(feedersOf(g));
    }
    for (int g = within.nextSetBit(0); g >= 0; g = within.nextSetBit(g + 1)) {
      BitSet beside = feedersOf(g);
      beside.and(within);
      // A way back along what feeds it makes one group of them.
      int group = g;
      beside.stream().forEach(feeder -> joined.get(feeder).set(group));
    }
    return new Groups(joined).inOrder();
  }
}
