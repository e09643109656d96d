package cardproof.card.wiring.review;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.IntPredicate;

/**
 * Which relays of a group still feed one another once all others have come to rest. The cells of a
 * store, say, hang on one another over the bus, but not while one word alone is picked, and from
 * the address alone it follows that one is. The two ranks of a counter hang on one another in a
 * circle, but never on both sides of their gates at once.
 *
 * <p>Relays outside the group that neither hold themselves nor belong to a group are what their
 * feeders make of them, in the end what driven lines and relays that hold make of them. These lines
 * and relays are the joint variables: under each of their assignments, every member of the group is
 * looked at on its own, with all else in its own networks free. That leaves out no state that all
 * of them may be in together. Not thread safe.
 */
final class AtRest {
  /** 1024 assignments. */
  static final int MOST_JOINT = 10;

  private final Circuit circuit;
  private final Feeds feeds;
  private final List<int[]> inOrder;
  private final IntPredicate follows;
  private final BitSet members = new BitSet();
  private final BitSet followers = new BitSet();
  private final Set<Integer> jointRelays = new LinkedHashSet<>();
  private final Set<Integer> jointLines = new LinkedHashSet<>();
  private final Map<Integer, Table> joint = new HashMap<>();

  /**
   * @param inOrder all groups, each after all that feed it
   * @param follows whether a relay is what its feeders make of it, not what it was before
   */
  AtRest(Circuit circuit, Feeds feeds, List<int[]> inOrder, IntPredicate follows) {
    this.circuit = circuit;
    this.feeds = feeds;
    this.inOrder = inOrder;
    this.follows = follows;
  }

  /**
   * A member whose own networks are too large to go through, or hold resistors, is taken to be fed
   * by all that have contacts in them, in every phase.
   */
  Phases phases(int[] group) {
    for (int member : group) {
      members.set(member);
    }
    collectJoint(group);
    Map<Integer, Integer> placeOf = new HashMap<>();
    for (int member : group) {
      placeOf.put(member, placeOf.size());
    }
    followJoint();
    List<Map<Integer, BitSet>> feeding = new ArrayList<>();
    for (int member : group) {
      Map<Integer, BitSet> feeders = new HashMap<>();
      feedersOf(member).forEach((relay, when) -> feeders.put(placeOf.get(relay), when));
      feeding.add(feeders);
    }
    return new Phases(group, feeding, 1 << jointVariables());
  }

  private int jointVariables() {
    return jointRelays.size() + jointLines.size();
  }

  /** What follows, and gates most members, first; for what finds no room see {@link #feedersOf}. */
  private void collectJoint(int[] group) {
    Map<Integer, Integer> fans = new TreeMap<>();
    for (int member : group) {
      BitSet outside = feeds.relays(member);
      outside.andNot(members);
      outside.stream().forEach(relay -> fans.merge(relay, 1, Integer::sum));
    }
    List<Integer> gates = new ArrayList<>(fans.keySet());
    gates.sort(
        Comparator.comparing((Integer relay) -> !follows.test(relay))
            .thenComparing(relay -> -fans.get(relay)));
    gates.forEach(this::take);
  }

  /** Goes back from a gate to the lines and relays that make it what it is. */
  private void take(int gate) {
    Set<Integer> relays = new LinkedHashSet<>(jointRelays);
    Set<Integer> lines = new LinkedHashSet<>(jointLines);
    BitSet known = (BitSet) followers.clone();
    Deque<Integer> waiting = new ArrayDeque<>(List.of(gate));
    while (!waiting.isEmpty()) {
      int relay = waiting.remove();
      if (known.get(relay)) {
        continue;
      }
      if (follows.test(relay) && feeds.areTwoValued(relay)) {
        known.set(relay);
        feeds.lines(relay).stream().forEach(lines::add);
        feeds.relays(relay).stream().forEach(waiting::add);
      } else {
        relays.add(relay);
      }
      if (relays.size() + lines.size() > MOST_JOINT) {
        return;
      }
    }
    jointRelays.addAll(relays);
    jointLines.addAll(lines);
    followers.or(known);
  }

  /** Every relay outside as a function of the joint variables alone. */
  private void followJoint() {
    int variables = jointVariables();
    Levels levels = new Levels(circuit, variables);
    int v = 0;
    for (int relay : jointRelays) {
      joint.put(relay, Table.variable(v++, variables));
    }
    for (int line : jointLines) {
      levels.driven(line, Table.variable(v++, variables));
    }
    joint.forEach(levels::operated);
    for (int[] one : inOrder) {
      if (followers.get(one[0])) {
        Table fed = feeds.fed(one[0], levels, variables);
        levels.operated(one[0], fed);
        joint.put(one[0], fed);
      }
    }
  }

  /**
   * Other members that feed one, with the joint assignments under which each does; gates that found
   * no room among these are free.
   */
  private Map<Integer, BitSet> feedersOf(int member) {
    BitSet free = feeds.relays(member);
    joint.keySet().forEach(free::clear);
    BitSet lines = feeds.lines(member);
    jointLines.forEach(lines::clear);
    int variables = jointVariables() + free.cardinality() + lines.cardinality();
    boolean exact = variables <= Sightings.MOST_VARIABLES && feeds.areTwoValued(member);
    Table fed = exact ? fed(member, free, lines, variables) : Table.never(0);
    Map<Integer, BitSet> feeders = new HashMap<>();
    int v = jointVariables();
    for (int other = free.nextSetBit(0); other >= 0; other = free.nextSetBit(other + 1)) {
      if (other != member && members.get(other)) {
        BitSet when = exact ? whenItFeeds(v, fed, variables) : always();
        if (!when.isEmpty()) {
          feeders.put(other, when);
        }
      }
      v++;
    }
    return feeders;
  }

  private BitSet whenItFeeds(int variable, Table fed, int variables) {
    Table changes = Table.never(variables);
    changes.orChangeWith(variable, fed);
    return changes.possibleUnder(jointVariables());
  }

  private BitSet always() {
    BitSet always = new BitSet();
    always.set(0, 1 << jointVariables());
    return always;
  }

  /** Joint variables come first, then relays that are free, then lines. */
  private Table fed(int member, BitSet free, BitSet lines, int variables) {
    Levels levels = new Levels(circuit, variables);
    int v = jointRelays.size();
    for (int line : jointLines) {
      levels.driven(line, Table.variable(v++, variables));
    }
    for (int relay = free.nextSetBit(0); relay >= 0; relay = free.nextSetBit(relay + 1)) {
      levels.operated(relay, Table.variable(v++, variables));
    }
    for (int line = lines.nextSetBit(0); line >= 0; line = lines.nextSetBit(line + 1)) {
      levels.driven(line, Table.variable(v++, variables));
    }
    BitSet known = feeds.relays(member);
    known.andNot(free);
    known.stream().forEach(relay -> levels.operated(relay, joint.get(relay).over(variables)));
    return feeds.fed(member, levels, variables);
  }
}
