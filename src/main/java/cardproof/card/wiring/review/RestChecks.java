package cardproof.card.wiring.review;

import cardproof.card.wiring.Relay;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.stream.IntStream;

/**
 * Tells feedback that never rests from a race, and names the relays of the loop. Moving all
 * together is one order of many: where some order of moving one relay at a time comes to rest, the
 * relays only race. Not thread safe.
 */
final class RestChecks {
  private static final int ORDERS = 8;
  private static final int MOST_AROUND = 64;
  private static final int MOVES_PER_RELAY = 20;
  private static final int MOST_MOVES = 5_000;

  private final Circuit circuit;
  private final List<EdgeLine> lines;
  private final ContactLogic logic;
  private final Findings findings;

  RestChecks(Circuit circuit, List<EdgeLine> lines, Findings findings) {
    this.circuit = circuit;
    this.lines = lines;
    this.logic = new ContactLogic(circuit);
    this.findings = findings;
  }

  void check() {
    Optional<Unrest> unrest = new RestSearch(circuit, lines).search();
    if (unrest.isEmpty()) {
      return;
    }
    List<String> loop = loop(unrest.get());
    String with = with(unrest.get().lines());
    Relay first = circuit.relays().get(relay(loop.get(0)));
    String names = String.join(" - ", loop);
    if (someOrderRests(unrest.get())) {
      findings.add(
          Kind.RACE,
          first.at(),
          "relays race with "
              + with
              + ": "
              + names
              + "; where they come to rest hangs on which is"
              + " faster",
          "",
          "Let one wait for the other, by a contact of it");
    } else {
      findings.add(
          Kind.NEVER_RESTS,
          first.at(),
          "with " + with + " the relays never come to rest: " + names,
          "",
          "Put a register into the loop, so that what comes out is held before it goes in again");
    }
  }

  private int relay(String name) {
    for (int r = 0; r < circuit.relays().size(); r++) {
      if (circuit.relayName(r).equals(name)) {
        return r;
      }
    }
    throw new IllegalStateException(name);
  }

  private String with(BitSet driven) {
    if (driven.isEmpty()) {
      return "nothing driven";
    }
    long all = lines.stream().filter(EdgeLine::driven).count();
    if (driven.cardinality() == all && all > 2) {
      return "every line driven";
    }
    return Words.listed(driven.stream().mapToObj(l -> lines.get(l).name()).toList(), 4) + " driven";
  }

  /** The shortest circle of relays of which each, moving, changes what feeds the next. */
  private List<String> loop(Unrest unrest) {
    Map<Integer, BitSet> moves = new HashMap<>();
    BitSet moving = new BitSet();
    List<BitSet> states = around(unrest, moving);
    for (BitSet state : states) {
      sense(unrest.lines(), state, moving, moves);
    }
    List<Integer> shortest = List.of();
    for (int r = moving.nextSetBit(0); r >= 0; r = moving.nextSetBit(r + 1)) {
      List<Integer> circle = circle(r, moves);
      if (!circle.isEmpty() && (shortest.isEmpty() || circle.size() < shortest.size())) {
        shortest = circle;
      }
    }
    if (shortest.isEmpty()) {
      return moving.stream().mapToObj(circuit::relayName).toList();
    }
    return shortest.stream().map(circuit::relayName).toList();
  }

  private List<BitSet> around(Unrest unrest, BitSet moving) {
    List<BitSet> states = new ArrayList<>();
    logic.put(unrest.around());
    BitSet before = unrest.around();
    do {
      states.add(before);
      logic.round(unrest.lines());
      BitSet now = logic.operated();
      BitSet moved = (BitSet) now.clone();
      moved.xor(before);
      moving.or(moved);
      before = now;
    } while (states.size() < MOST_AROUND && !before.equals(unrest.around()));
    return states;
  }

  private void sense(BitSet driven, BitSet state, BitSet moving, Map<Integer, BitSet> moves) {
    logic.put(driven, state);
    BitSet fed = fed(moving);
    for (int r = moving.nextSetBit(0); r >= 0; r = moving.nextSetBit(r + 1)) {
      BitSet flipped = (BitSet) state.clone();
      flipped.flip(r);
      logic.put(driven, flipped);
      BitSet changed = fed(moving);
      changed.xor(fed);
      moves.computeIfAbsent(r, n -> new BitSet()).or(changed);
    }
  }

  private BitSet fed(BitSet relays) {
    BitSet fed = new BitSet();
    relays.stream().filter(logic::fed).forEach(fed::set);
    return fed;
  }

  private static List<Integer> circle(int start, Map<Integer, BitSet> moves) {
    Map<Integer, Integer> cameFrom = new HashMap<>();
    Deque<Integer> waiting = new ArrayDeque<>(List.of(start));
    while (!waiting.isEmpty()) {
      int relay = waiting.remove();
      BitSet next = moves.getOrDefault(relay, new BitSet());
      if (next.get(start)) {
        return back(start, relay, cameFrom);
      }
      for (int n = next.nextSetBit(0); n >= 0; n = next.nextSetBit(n + 1)) {
        if (n != start && cameFrom.putIfAbsent(n, relay) == null) {
          waiting.add(n);
        }
      }
    }
    return List.of();
  }

  private static List<Integer> back(int start, int last, Map<Integer, Integer> cameFrom) {
    List<Integer> circle = new ArrayList<>(List.of(start));
    for (int relay = last; relay != start; relay = cameFrom.get(relay)) {
      circle.add(1, relay);
    }
    circle.add(start);
    return circle;
  }

  private boolean someOrderRests(Unrest unrest) {
    for (int order = 0; order < ORDERS; order++) {
      if (rests(unrest, new Random(order), order)) {
        return true;
      }
    }
    return false;
  }

  /** Moves one relay at a time: always the first that can, always the last, or any. */
  private boolean rests(Unrest unrest, Random random, int order) {
    BitSet state = (BitSet) unrest.before().clone();
    int relays = circuit.relays().size();
    int most = Math.min(MOVES_PER_RELAY * relays, MOST_MOVES);
    for (int move = 0; move <= most; move++) {
      logic.put(unrest.lines(), state);
      int[] ready = ready(state);
      if (ready.length == 0) {
        return true;
      }
      int which = order == 0 ? 0 : order == 1 ? ready.length - 1 : random.nextInt(ready.length);
      state.flip(ready[which]);
    }
    return false;
  }

  private int[] ready(BitSet state) {
    return IntStream.range(0, circuit.relays().size())
        .filter(r -> logic.fed(r) != state.get(r))
        .toArray();
  }
}
