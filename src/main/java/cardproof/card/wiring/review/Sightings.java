package cardproof.card.wiring.review;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
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
  private final Map<Integer, BitSet> changing = new HashMap<>();

  Sightings(Circuit circuit, List<EdgeLine> lines, Networks networks, Dependencies dependencies) {
    this.circuit = circuit;
    this.dependencies = dependencies;
    for (int r = 0; r < circuit.relays().size(); r++) {
      shownBy.add(new ArrayList<>());
    }
    for (int line = 0; line < lines.size(); line++) {
      if (lines.get(line).watched()) {
        Network network = networks.toSupply(circuit.lineNode(line));
        changing(network).stream().forEach(relay -> shownBy.get(relay).add(network));
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
    return changing(network).stream()
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
    return network.variables() <= MOST_VARIABLES && Levels.areTwo(circuit, network);
  }

  /**
   * Relays that ever make a difference to a watched line. A contact in its network need not: from
   * the line through both throws of one relay leads no way.
   */
  BitSet changing(Network network) {
    return changing.computeIfAbsent(
        network.node(), n -> isExact(network) ? findChanging(network) : network.relays());
  }

  private BitSet findChanging(Network network) {
    int[] relayAt = network.relays().stream().toArray();
    int variables = network.variables();
    Table level = levels(relayAt, network.lines().stream().toArray()).of(network);
    BitSet found = new BitSet();
    for (int v = 0; v < relayAt.length; v++) {
      Table changes = Table.never(variables);
      changes.orChangeWith(v, level);
      found.set(relayAt[v], !changes.holdsNever());
    }
    return found;
  }

  private boolean shows(int relay, List<Network> networks, BitSet relays, BitSet lines) {
    Levels levels = levels(relays.stream().toArray(), lines.stream().toArray());
    Table changes = Table.never(relays.cardinality() + lines.cardinality());
    for (Network network : networks) {
      changes.orChangeWith(relays.get(0, relay).cardinality(), levels.of(network));
    }
    return changes.holdsAlways();
  }

  /** Relays as the first variables, then lines. */
  private Levels levels(int[] relayAt, int[] lineAt) {
    int variables = relayAt.length + lineAt.length;
    Levels levels = new Levels(circuit, variables);
    for (int v = 0; v < relayAt.length; v++) {
      levels.operated(relayAt[v], Table.variable(v, variables));
    }
    for (int v = 0; v < lineAt.length; v++) {
      levels.driven(lineAt[v], Table.variable(relayAt.length + v, variables));
    }
    return levels;
  }
}
