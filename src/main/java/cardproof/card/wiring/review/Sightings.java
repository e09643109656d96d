package cardproof.card.wiring.review;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * From when on a relay's moves can be seen. Some set of watched lines must change with the relay
 * whatever the other relays and the driven lines in their contact networks do; and those other
 * relays must have made their last move, since two that move together may cancel. Not thread safe.
 */
final class Sightings {
  /** Its moves may pass unseen at any time. */
  static final int NEVER = Integer.MAX_VALUE;

  /** Networks with more relays and lines than this are not gone through: 65,536 states. */
  static final int MOST_VARIABLES = 16;

  private record Shown(Network network, int lastMove) {}

  private final Circuit circuit;
  private final Dependencies dependencies;
  private final List<List<Network>> shownBy = new ArrayList<>();
  private final Map<Integer, Map<Integer, Boolean>> alone = new HashMap<>();

  Sightings(Circuit circuit, List<EdgeLine> lines, Networks networks, Dependencies dependencies) {
    this.circuit = circuit;
    this.dependencies = dependencies;
    for (int r = 0; r < circuit.relays().size(); r++) {
      shownBy.add(new ArrayList<>());
    }
    for (int line = 0; line < lines.size(); line++) {
      if (lines.get(line).watched()) {
        Network network = networks.toSupply(circuit.lineNode(line));
        network.relays().stream().forEach(relay -> shownBy.get(relay).add(network));
      }
    }
  }

  /**
   * Stages after a change of the drives from which on every move of the relay changes a watched
   * line; 0 where it always does, {@link #NEVER} where that cannot be said.
   */
  int seenFrom(int relay) {
    List<Shown> candidates =
        shownBy.get(relay).stream()
            .distinct()
            .map(network -> new Shown(network, lastMove(network, relay)))
            .sorted(Comparator.comparingInt(Shown::lastMove))
            .toList();
    List<Network> together = new ArrayList<>();
    BitSet relays = new BitSet();
    BitSet lines = new BitSet();
    for (Shown shown : candidates) {
      if (showsAlone(relay, shown.network())) {
        return shown.lastMove();
      }
      if (!isExact(shown.network())) {
        continue;
      }
      relays.or(shown.network().relays());
      lines.or(shown.network().lines());
      together.add(shown.network());
      if (together.size() > 1
          && relays.cardinality() + lines.cardinality() <= MOST_VARIABLES
          && shows(relay, together, relays, lines)) {
        return shown.lastMove();
      }
    }
    return NEVER;
  }

  private int lastMove(Network network, int relay) {
    return network.relays().stream()
        .filter(other -> other != relay)
        .map(dependencies::depth)
        .max()
        .orElse(0);
  }

  private boolean showsAlone(int relay, Network network) {
    return isExact(network)
        && alone
            .computeIfAbsent(network.node(), n -> new HashMap<>())
            .computeIfAbsent(
                relay, r -> shows(r, List.of(network), network.relays(), network.lines()));
  }

  /**
   * Whether all its states can be gone through; where a resistor divides, two values say little.
   */
  private boolean isExact(Network network) {
    return network.variables() <= MOST_VARIABLES
        && network.links().stream().noneMatch(l -> circuit.link(l).weak());
  }

  private boolean shows(int relay, List<Network> networks, BitSet relays, BitSet lines) {
    int[] relayAt = relays.stream().toArray();
    int[] lineAt = lines.stream().toArray();
    int variables = relayAt.length + lineAt.length;
    Map<Integer, Table> operated = new HashMap<>();
    for (int v = 0; v < relayAt.length; v++) {
      operated.put(relayAt[v], Table.variable(v, variables));
    }
    Map<Integer, Table> driven = new HashMap<>();
    for (int v = 0; v < lineAt.length; v++) {
      driven.put(lineAt[v], Table.variable(relayAt.length + v, variables));
    }
    int variable = relays.get(0, relay).cardinality();
    Table changes = Table.never(variables);
    for (Network network : networks) {
      changes.orChangeWith(variable, level(network, operated, driven, variables));
    }
    return changes.holdsAlways();
  }

  /** When the network's node is on, by going from it to all that may feed it. */
  private Table level(
      Network network, Map<Integer, Table> operated, Map<Integer, Table> driven, int variables) {
    Map<Integer, List<Integer>> linksAt = new HashMap<>();
    for (int l : network.links()) {
      linksAt.computeIfAbsent(circuit.link(l).from(), n -> new ArrayList<>()).add(l);
      linksAt.computeIfAbsent(circuit.link(l).to(), n -> new ArrayList<>()).add(l);
    }
    Map<Integer, Table> released = new HashMap<>();
    operated.forEach((relay, table) -> released.put(relay, table.not()));
    Table always = Table.always(variables);
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
        Link link = circuit.link(l);
        int other = link.other(node);
        Table closed =
            !link.isContact()
                ? always
                : (link.whenOperated() ? operated : released).get(link.relay());
        if (link.leaves(other)
            && reached
                .computeIfAbsent(other, n -> Table.never(variables))
                .orAnd(reached.get(node), closed)
            && !waiting.contains(other)) {
          waiting.add(other);
        }
      }
    }
    Table on = Table.never(variables);
    on.orAnd(always, reached.getOrDefault(circuit.supply(), on));
    driven.forEach(
        (line, table) ->
            on.orAnd(table, reached.getOrDefault(circuit.lineNode(line), Table.never(variables))));
    return on;
  }
}
