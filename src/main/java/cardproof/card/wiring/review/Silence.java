package cardproof.card.wiring.review;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/**
 * How many stages a card may move with no watched line changing.
 *
 * <p>Take a silence, and go back from the move that ends it (a watched line's change, or a relay's
 * last move of all) from each relay to the one that made it move, until the move lies at or before
 * the silence's beginning. Every move on the way but the last one was unseen. So the silence is at
 * most one stage longer than the silence up to a feeder's unseen move, and that is bounded twice:
 * by its own chain, and, where its moves are seen from stage n on, by n, because an unseen one is
 * made before that. With every stage taken as the slowest one this holds however unlike the relays
 * are. A group of relays that feed one another is taken to move once each. Immutable.
 */
final class Silence {
  private final Dependencies dependencies;
  private final List<List<Integer>> upTo = new ArrayList<>();
  private final int[] seenFrom;

  Silence(Dependencies dependencies, Sightings sightings) {
    this.dependencies = dependencies;
    int relays = dependencies.relays();
    this.seenFrom = new int[relays];
    for (int r = 0; r < relays; r++) {
      seenFrom[r] = sightings.seenFrom(r);
      upTo.add(List.of());
    }
    for (int[] group : dependencies.groups()) {
      List<Integer> longest = List.of();
      BitSet feeders = dependencies.feedersOf(group);
      for (int f = feeders.nextSetBit(0); f >= 0; f = feeders.nextSetBit(f + 1)) {
        List<Integer> unseen = unseenUpTo(f);
        if (unseen.size() > longest.size()) {
          longest = unseen;
        }
      }
      for (int relay : group) {
        upTo.set(relay, ending(longest, group, relay));
      }
    }
  }

  private static List<Integer> ending(List<Integer> before, int[] group, int relay) {
    List<Integer> chain = new ArrayList<>(before);
    for (int member : group) {
      if (member != relay) {
        chain.add(member);
      }
    }
    chain.add(relay);
    return List.copyOf(chain);
  }

  /** The longest silence that still lasts after an unseen move of the relay. */
  private List<Integer> unseenUpTo(int relay) {
    List<Integer> chain = upTo.get(relay);
    int stages = Math.min(chain.size(), seenFrom[relay]);
    return chain.subList(chain.size() - stages, chain.size());
  }

  /** The longest silence that a move of the relay ends: the relays that make it, in order. */
  List<Integer> upTo(int relay) {
    return upTo.get(relay);
  }

  /** The longest of all, the unseen tail included; of equals the first of the file. */
  List<Integer> longest() {
    return longestUpTo(all());
  }

  /** The longest that a move of one of these ends. */
  List<Integer> longestUpTo(BitSet relays) {
    List<Integer> longest = List.of();
    for (int r = relays.nextSetBit(0); r >= 0; r = relays.nextSetBit(r + 1)) {
      List<Integer> chain = upTo.get(r);
      boolean earlier =
          chain.size() == longest.size()
              && !chain.isEmpty()
              && dependencies.depth(r) < dependencies.depth(longest.get(longest.size() - 1));
      if (chain.size() > longest.size() || earlier) {
        longest = chain;
      }
    }
    return longest;
  }

  private BitSet all() {
    BitSet all = new BitSet();
    all.set(0, upTo.size());
    return all;
  }
}
