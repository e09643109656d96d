package cardproof.card.wiring.review;

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
 * are.
 *
 * <p>Of relays that feed one another some move before all outside has come to rest, d stages after
 * the drives, and then any that can ever feed one may be what made it move. But a silence up to a
 * move within those d stages is no longer than d, for it cannot have begun before the drives. A
 * later move comes of such an early one, or of one made after the d stages by a relay that feeds it
 * {@link Phases in the phase} that lines and gates then stand in, and stay in. So the way back
 * leads through one phase until it meets the d stages, the silence's beginning, or a relay outside
 * that moved unseen; and the longest over all phases bounds a silence that spans the moment of rest
 * as well as one to either side of it. Relays that make a circle even in one phase are taken to
 * move once each, which is the only thing here that is not proved. Immutable.
 */
final class Silence {
  private final Dependencies dependencies;
  private final Trail[] upTo;
  private final int[] seenFrom;

  Silence(Dependencies dependencies, Sightings sightings) {
    this.dependencies = dependencies;
    int relays = dependencies.relays();
    this.upTo = new Trail[relays];
    this.seenFrom = new int[relays];
    for (int r = 0; r < relays; r++) {
      seenFrom[r] = sightings.seenFrom(r);
    }
    Walk walk = new Walk(upTo);
    for (Block block : dependencies.blocks()) {
      BitSet members = new BitSet();
      for (int relay : block.relays()) {
        members.set(relay);
      }
      walk.through(
          block,
          (circle, now) ->
              Trail.longer(early(circle, block, members), unseen(circle.feeders(), now)));
    }
  }

  /** Up to a move of a relay outside at any time, or of a member before all outside is at rest. */
  private Trail early(Phases.Circle circle, Block block, BitSet members) {
    BitSet outside = dependencies.feedersOf(circle.relays());
    BitSet inside = (BitSet) outside.clone();
    inside.and(members);
    outside.andNot(members);
    Trail atMost =
        inside.stream()
            .mapToObj(relay -> block.toOutside().tail(seenFrom[relay]))
            .reduce(Trail.NONE, Trail::longer);
    return Trail.longer(unseen(outside, upTo), atMost);
  }

  /** The longest silence that still lasts after an unseen move of one of these. */
  private Trail unseen(BitSet relays, Trail[] trails) {
    return relays.stream()
        .mapToObj(relay -> trails[relay].tail(seenFrom[relay]))
        .reduce(Trail.NONE, Trail::longer);
  }

  /** The longest of all, the unseen tail included; of equals the first of the file. */
  List<Integer> longest() {
    BitSet all = new BitSet();
    all.set(0, upTo.length);
    return longestUpTo(all);
  }

  /** The longest that a move of one of these ends; of equals the one that is over first. */
  List<Integer> longestUpTo(BitSet relays) {
    Trail longest = Trail.NONE;
    for (int r = relays.nextSetBit(0); r >= 0; r = relays.nextSetBit(r + 1)) {
      Trail chain = upTo[r];
      boolean earlier =
          chain.stages() == longest.stages()
              && chain.stages() > 0
              && dependencies.depth(r) < dependencies.depth(longest.last());
      longest = earlier ? chain : Trail.longer(longest, chain);
    }
    return longest.relays();
  }
}
