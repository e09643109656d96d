package cardproof.card.wiring.review;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * When a network leads to its rail, as a function of a few variables, once each of its relays and
 * lines has been given as such a function. Not thread safe.
 */
final class Levels {
  private final Circuit circuit;
  private final int variables;
  private final Table always;
  private final Map<Integer, Table> operated = new HashMap<>();
  private final Map<Integer, Table> released = new HashMap<>();
  private final Map<Integer, Table> driven = new HashMap<>();

  Levels(Circuit circuit, int variables) {
    this.circuit = circuit;
    this.variables = variables;
    this.always = Table.always(variables);
  }

  /** Whether two values say all of a network; where a resistor divides they say little. */
  static boolean areTwo(Circuit circuit, Network network) {
    return network.links().stream().noneMatch(l -> circuit.link(l).weak());
  }

  void operated(int relay, Table when) {
    operated.put(relay, when);
    released.put(relay, when.not());
  }

  void driven(int line, Table when) {
    driven.put(line, when);
  }

  /** By going from the network's node to all that it may lead to. */
  Table of(Network network) {
    Map<Integer, List<Integer>> linksAt = new HashMap<>();
    for (int l : network.links()) {
      linksAt.computeIfAbsent(circuit.link(l).from(), n -> new ArrayList<>()).add(l);
      linksAt.computeIfAbsent(circuit.link(l).to(), n -> new ArrayList<>()).add(l);
    }
    Map<Integer, Table> reached = new HashMap<>();
    reached.put(network.node(), always);
    Deque<Integer> waiting = new ArrayDeque<>();
    waiting.add(network.node());
    while (!waiting.isEmpty()) {
      int node = waiting.remove();
      if (circuit.isRail(node)) {
        continue;
      }
      for (int l : linksAt.getOrDefault(node, List.of())) {
        int other = circuit.link(l).other(node);
        boolean flows = circuit.link(l).leaves(network.toSupply() ? other : node);
        if (flows && spread(reached, node, l, other) && !waiting.contains(other)) {
          waiting.add(other);
        }
      }
    }
    return arrived(network, reached);
  }

  private boolean spread(Map<Integer, Table> reached, int node, int l, int other) {
    Link link = circuit.link(l);
    Table closed =
        !link.isContact() ? always : (link.whenOperated() ? operated : released).get(link.relay());
    return reached
        .computeIfAbsent(other, n -> Table.never(variables))
        .orAnd(reached.get(node), closed);
  }

  private Table arrived(Network network, Map<Integer, Table> reached) {
    Table never = Table.never(variables);
    Table there = Table.never(variables);
    int rail = network.toSupply() ? circuit.supply() : circuit.ground();
    there.orAnd(always, reached.getOrDefault(rail, never));
    for (int line = network.lines().nextSetBit(0); line >= 0; ) {
      there.orAnd(driven.get(line), reached.getOrDefault(circuit.lineNode(line), never));
      line = network.lines().nextSetBit(line + 1);
    }
    return there;
  }
}
