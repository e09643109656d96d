package cardproof.card.wiring.review;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Collections;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BooleanSupplier;

/**
 * Looks for ways that no relay forbids: one relay's normally open and normally closed throws are
 * never closed at once, over all ways asked for together. Depth first, nearest first, with a bound
 * on the work; {@link #gaveUp} says whether it struck. Not thread safe.
 */
final class WaySearch {
  private static final int MOST_STEPS = 20_000;
  private static final int MOST_LINKS = 1_000;

  private static final byte EITHER = 0;
  private static final byte OPERATED = 1;
  private static final byte RELEASED = 2;

  private record Aim(BitSet goals, boolean along) {}

  private final Circuit circuit;
  private final BitSet leftOut = new BitSet();
  private final Map<Aim, int[]> distances = new HashMap<>();
  private final byte[] state;
  private int steps;
  private boolean gaveUp;

  WaySearch(Circuit circuit) {
    this.circuit = circuit;
    this.state = new byte[circuit.relays().size()];
  }

  /** No way goes through this link from now on. */
  void leaveOut(int link) {
    leftOut.set(link);
    distances.clear();
  }

  boolean isLeftOut(int link) {
    return leftOut.get(link);
  }

  /** Whether the last search ended at its bound, so that there may be a way all the same. */
  boolean gaveUp() {
    return gaveUp;
  }

  /** A way for current from a node to any of these. */
  Optional<Way> way(int start, BitSet goals) {
    begin();
    Leg leg = new Leg(start, goals, true);
    return ended(leg.run(() -> true)) ? Optional.of(leg.way()) : Optional.empty();
  }

  /** A way for current from any of these to a node. */
  Optional<Way> wayTo(int end, BitSet sources) {
    begin();
    Leg leg = new Leg(end, sources, false);
    return ended(leg.run(() -> true)) ? Optional.of(leg.way()) : Optional.empty();
  }

  /** A way for current from any of these to a node, the last link of it given. */
  Optional<Way> wayThrough(int link, int end, BitSet sources) {
    begin();
    Link last = circuit.link(link);
    if (last.isContact()) {
      state[last.relay()] = last.whenOperated() ? OPERATED : RELEASED;
    }
    Leg leg = new Leg(last.other(end), sources, false);
    if (!ended(leg.run(() -> true))) {
      return Optional.empty();
    }
    List<Integer> links = new ArrayList<>(leg.way().links());
    links.add(link);
    return Optional.of(new Way(leg.way().from(), links, end));
  }

  /**
   * Ways by which current comes to one end of a coil and leaves by its other end, both possible at
   * once.
   *
   * @param released whether that relay's own contacts must be as they are while it is released
   * @return the way to the coil, then the way from it
   */
  Optional<List<Way>> through(Load coil, boolean turned, Ends ends, boolean released) {
    begin();
    if (released) {
      state[coil.relay()] = RELEASED;
    }
    Leg feed = new Leg(turned ? coil.second() : coil.first(), ends.sources(), false);
    Leg back = new Leg(turned ? coil.first() : coil.second(), ends.sinks(), true);
    return ended(feed.run(() -> back.run(() -> true)))
        ? Optional.of(List.of(feed.way(), back.way()))
        : Optional.empty();
  }

  private void begin() {
    Arrays.fill(state, EITHER);
    steps = 0;
  }

  private boolean ended(boolean found) {
    gaveUp = !found && steps > MOST_STEPS;
    return found;
  }

  /** How many links it is to the nearest goal, relays aside. */
  private int[] distances(Aim aim) {
    int[] distance = new int[circuit.nodes()];
    Arrays.fill(distance, Integer.MAX_VALUE);
    Deque<Integer> waiting = new ArrayDeque<>();
    for (int goal = aim.goals().nextSetBit(0); goal >= 0; ) {
      distance[goal] = 0;
      waiting.add(goal);
      goal = aim.goals().nextSetBit(goal + 1);
    }
    while (!waiting.isEmpty()) {
      int node = waiting.remove();
      if (circuit.isRail(node) && !aim.goals().get(node)) {
        continue;
      }
      for (int l : circuit.at(node)) {
        int other = circuit.link(l).other(node);
        if (circuit.link(l).leaves(aim.along() ? other : node)
            && distance[other] == Integer.MAX_VALUE
            && !leftOut.get(l)) {
          distance[other] = distance[node] + 1;
          waiting.add(other);
        }
      }
    }
    return distance;
  }

  /** One way in the making, with the current ({@code along}) or against it. */
  private final class Leg {
    private final int start;
    private final BitSet goals;
    private final boolean along;
    private final int[] distance;
    private final ArrayDeque<Integer> links = new ArrayDeque<>();
    private final BitSet onWay = new BitSet();
    private int end;

    Leg(int start, BitSet goals, boolean along) {
      this.start = start;
      this.goals = goals;
      this.along = along;
      this.distance = distances.computeIfAbsent(new Aim(goals, along), WaySearch.this::distances);
    }

    /**
     * @param then what must hold besides, asked for every way there is until it does
     */
    boolean run(BooleanSupplier then) {
      links.clear();
      onWay.clear();
      return distance[start] != Integer.MAX_VALUE && go(start, then);
    }

    Way way() {
      List<Integer> inOrder = new ArrayList<>(links);
      if (along) {
        return new Way(start, inOrder, end);
      }
      Collections.reverse(inOrder);
      return new Way(end, inOrder, start);
    }

    private boolean go(int node, BooleanSupplier then) {
      if (goals.get(node)) {
        end = node;
        return then.getAsBoolean();
      }
      if (++steps > MOST_STEPS || links.size() > MOST_LINKS || circuit.isRail(node)) {
        return false;
      }
      onWay.set(node);
      for (int l : nearestFirst(node)) {
        if (take(l, node, then)) {
          return true;
        }
      }
      onWay.clear(node);
      return false;
    }

    private boolean take(int l, int node, BooleanSupplier then) {
      Link link = circuit.link(l);
      byte before = link.isContact() ? state[link.relay()] : EITHER;
      byte needed = !link.isContact() ? EITHER : link.whenOperated() ? OPERATED : RELEASED;
      if (onWay.get(link.other(node)) || before != EITHER && before != needed) {
        return false;
      }
      if (link.isContact()) {
        state[link.relay()] = needed;
      }
      links.addLast(l);
      if (go(link.other(node), then)) {
        return true;
      }
      links.removeLast();
      if (link.isContact()) {
        state[link.relay()] = before;
      }
      return false;
    }

    private List<Integer> nearestFirst(int node) {
      List<Integer> near = new ArrayList<>();
      for (int l : circuit.at(node)) {
        Link link = circuit.link(l);
        int other = link.other(node);
        if (!leftOut.get(l)
            && link.leaves(along ? node : other)
            && distance[other] != Integer.MAX_VALUE) {
          near.add(l);
        }
      }
      near.sort(Comparator.comparingInt(l -> distance[circuit.link(l).other(node)]));
      return near;
    }
  }
}
