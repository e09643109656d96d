package cardproof.card.wiring.review;

import cardproof.card.wiring.Diode;
import cardproof.card.wiring.Fuse;
import cardproof.card.wiring.Lamp;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Pole;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Resistor;
import cardproof.card.wiring.Terminal;
import cardproof.card.wiring.Wire;
import cardproof.card.wiring.Wiring;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * A wiring as a graph: nets that wires and fuses join are one node, contacts, diodes and small
 * resistors are links between nodes, the rest are loads. Immutable.
 */
final class Circuit {
  /** A coil with more than this part of its own resistance in series may not operate (75 %). */
  private static final int COIL_TO_SERIES = 3;

  private final Wiring wiring;
  private final List<Relay> relays;
  private final int[] parent;
  private final List<Link> links = new ArrayList<>();
  private final List<Load> loads = new ArrayList<>();
  private final Map<Integer, List<Load>> loadsAt = new HashMap<>();
  private final Load[] coils;
  private final int[][] at;
  private final boolean weak;

  Circuit(Wiring wiring) {
    this.wiring = wiring;
    this.relays = wiring.relays();
    this.parent = new int[wiring.nets().size()];
    this.coils = new Load[relays.size()];
    for (int net = 0; net < parent.length; net++) {
      parent[net] = net;
    }
    for (Part part : wiring.parts()) {
      if (part instanceof Wire wire) {
        join(wire.first(), wire.second());
      } else if (part instanceof Fuse fuse) {
        join(fuse.first(), fuse.second());
      }
    }
    for (int net = 0; net < parent.length; net++) {
      parent[net] = root(net);
    }
    double seriesOhms =
        relays.stream().mapToDouble(r -> r.type().coilOhms()).min().orElse(0) / COIL_TO_SERIES;
    int relay = 0;
    for (Part part : wiring.parts()) {
      if (part instanceof Relay r) {
        add(r, relay++);
      } else if (part instanceof Diode d) {
        link(d, Link.NO_RELAY, 0, false, d.anode(), d.cathode(), true, false);
      } else if (part instanceof Lamp l) {
        load(l, Link.NO_RELAY, l.first(), l.second(), l.ohms());
      } else if (part instanceof Resistor r) {
        load(r, Link.NO_RELAY, r.first(), r.second(), r.ohms());
        if (r.ohms() <= seriesOhms) {
          link(r, Link.NO_RELAY, 0, false, r.first(), r.second(), false, true);
        }
      }
    }
    this.weak = links.stream().anyMatch(Link::weak);
    this.at = neighbours();
  }

  private void add(Relay relay, int number) {
    coils[number] = load(relay, number, relay.coil1(), relay.coil2(), relay.type().coilOhms());
    for (int p = 0; p < relay.poles().size(); p++) {
      Pole pole = relay.poles().get(p);
      link(relay, number, p, true, pole.com(), pole.no(), false, false);
      link(relay, number, p, false, pole.com(), pole.nc(), false, false);
    }
  }

  private Load load(Part part, int relay, int first, int second, double ohms) {
    Load load = new Load(part, relay, node(first), node(second), ohms);
    loads.add(load);
    for (int node : new int[] {load.first(), load.second()}) {
      if (node != Terminal.NOT_WIRED) {
        loadsAt.computeIfAbsent(node, n -> new ArrayList<>()).add(load);
      }
    }
    return load;
  }

  private void link(
      Part part,
      int relay,
      int pole,
      boolean whenOperated,
      int from,
      int to,
      boolean oneWay,
      boolean small) {
    if (node(from) != node(to) && from != Terminal.NOT_WIRED && to != Terminal.NOT_WIRED) {
      links.add(
          new Link(part, relay, pole, whenOperated, node(from), node(to), from, to, oneWay, small));
    }
  }

  private void join(int net, int other) {
    if (net != Terminal.NOT_WIRED && other != Terminal.NOT_WIRED) {
      parent[root(net)] = root(other);
    }
  }

  private int root(int net) {
    int node = net;
    while (parent[node] != node) {
      parent[node] = parent[parent[node]];
      node = parent[node];
    }
    return node;
  }

  private int[][] neighbours() {
    int[] count = new int[parent.length];
    for (Link link : links) {
      count[link.from()]++;
      count[link.to()]++;
    }
    int[][] found = new int[parent.length][];
    for (int node = 0; node < found.length; node++) {
      found[node] = new int[count[node]];
    }
    for (int l = links.size() - 1; l >= 0; l--) {
      found[links.get(l).from()][--count[links.get(l).from()]] = l;
      found[links.get(l).to()][--count[links.get(l).to()]] = l;
    }
    return found;
  }

  Wiring wiring() {
    return wiring;
  }

  List<Relay> relays() {
    return relays;
  }

  String relayName(int relay) {
    return relays.get(relay).name();
  }

  List<Link> links() {
    return links;
  }

  Link link(int number) {
    return links.get(number);
  }

  /** Whether some resistor is among the links. */
  boolean hasWeakLinks() {
    return weak;
  }

  List<Load> loads() {
    return loads;
  }

  /** Coils, lamps and resistors with an end at a node. */
  List<Load> loadsAt(int node) {
    return loadsAt.getOrDefault(node, List.of());
  }

  Load coil(int relay) {
    return coils[relay];
  }

  /** Numbers of the links at a node, in the order of the file. */
  int[] at(int node) {
    return at[node];
  }

  /** Nodes are numbered like nets, with gaps. */
  int nodes() {
    return parent.length;
  }

  /** The node of a net, or {@link Terminal#NOT_WIRED}. */
  int node(int net) {
    return net == Terminal.NOT_WIRED ? net : parent[net];
  }

  int supply() {
    return node(wiring.supply());
  }

  int ground() {
    return node(wiring.ground());
  }

  boolean isRail(int node) {
    return node == supply() || node == ground();
  }

  /** The net to name a node by where a way begins: a rail's or a line's own, else any. */
  int netOf(int node) {
    if (node == supply()) {
      return wiring.supply();
    }
    if (node == ground()) {
      return wiring.ground();
    }
    return wiring.lineNets().stream().filter(net -> node(net) == node).findFirst().orElse(node);
  }

  int lineNode(int line) {
    return node(wiring.lineNets().get(line));
  }
}
