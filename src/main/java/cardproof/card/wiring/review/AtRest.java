package cardproof.card.wiring.review;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.IntPredicate;

/**
 * Which relays of a group still feed one another once all others have come to rest. The cells of a
 * store, say, hang on one another over the bus, but not while one word alone is picked, and from
 * the address alone it follows that one is. Relays outside the group that neither hold themselves
 * nor belong to a group are what the driven lines make of them; all that is left free is gone
 * through, up to sixteen lines and relays. Not thread safe.
 */
final class AtRest {
  private final Feeds feeds;
  private final IntPredicate follows;
  private final Circuit circuit;
  private final Map<Integer, Integer> relayVariable = new HashMap<>();
  private final Map<Integer, Integer> lineVariable = new HashMap<>();
  private final List<Integer> inOrder = new ArrayList<>();
  private final BitSet collected = new BitSet();
  private boolean exact = true;

  /**
   * @param follows whether a relay is what its feeders make of it, not what it was before
   */
  AtRest(Circuit circuit, Feeds feeds, IntPredicate follows) {
    this.circuit = circuit;
    this.feeds = feeds;
    this.follows = follows;
  }

  /**
   * By place in the group, the places of those that feed it, itself left out; empty where there is
   * too much to go through.
   */
  Optional<List<BitSet>> feeders(int[] group) {
    for (int member : group) {
      relayVariable.put(member, relayVariable.size());
      collected.set(member);
    }
    for (int member : group) {
      collectFeeders(member);
    }
    int variables = relayVariable.size() + lineVariable.size();
    if (!exact || variables > Sightings.MOST_VARIABLES) {
      return Optional.empty();
    }
    Levels levels = levels(variables);
    List<BitSet> feeding = new ArrayList<>();
    for (int member : group) {
      Table fed = feeds.fed(member, levels, variables);
      BitSet feeders = new BitSet();
      for (int other = 0; other < group.length; other++) {
        Table changes = Table.never(variables);
        changes.orChangeWith(other, fed);
        feeders.set(other, group[other] != member && !changes.holdsNever());
      }
      feeding.add(feeders);
    }
    return Optional.of(feeding);
  }

  private Levels levels(int variables) {
    Levels levels = new Levels(circuit, variables);
    lineVariable.forEach(
        (line, v) -> levels.driven(line, Table.variable(relayVariable.size() + v, variables)));
    relayVariable.forEach((relay, v) -> levels.operated(relay, Table.variable(v, variables)));
    for (int relay : inOrder) {
      levels.operated(relay, feeds.fed(relay, levels, variables));
    }
    return levels;
  }

  private void collectFeeders(int relay) {
    exact &= feeds.areTwoValued(relay);
    feeds.lines(relay).stream()
        .forEach(line -> lineVariable.putIfAbsent(line, lineVariable.size()));
    feeds.relays(relay).stream().forEach(this::collect);
  }

  private void collect(int relay) {
    if (collected.get(relay) || !exact) {
      return;
    }
    collected.set(relay);
    if (relayVariable.size() + lineVariable.size() > Sightings.MOST_VARIABLES) {
      exact = false;
    } else if (follows.test(relay)) {
      collectFeeders(relay);
      inOrder.add(relay);
    } else {
      relayVariable.put(relay, relayVariable.size());
    }
  }
}
