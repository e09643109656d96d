package cardproof.card.wiring.review;

import cardproof.card.wiring.Fuse;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Pole;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Terminal;
import cardproof.card.wiring.Wire;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Deque;
import java.util.List;

/** Ways and terminals in words: {@code +12V - F1 - K3 com - K3 nc - GND}. */
final class Words {
  private record Joint(Part part, int from, int to) {}

  private final Circuit circuit;
  private final List<List<Joint>> joints = new ArrayList<>();

  Words(Circuit circuit) {
    this.circuit = circuit;
    for (int net = 0; net < circuit.nodes(); net++) {
      joints.add(new ArrayList<>());
    }
    for (Part part : circuit.wiring().parts()) {
      if (part instanceof Wire || part instanceof Fuse) {
        int one = part.terminals().get(0).net();
        int other = part.terminals().get(1).net();
        if (one != Terminal.NOT_WIRED && other != Terminal.NOT_WIRED) {
          joints.get(one).add(new Joint(part, one, other));
          joints.get(other).add(new Joint(part, other, one));
        }
      }
    }
  }

  String net(int net) {
    return circuit.wiring().nets().get(net).name();
  }

  /** A way from one net to another, both named, and every part between them. */
  String way(int fromNet, Way way, int toNet) {
    List<String> words = new ArrayList<>();
    words.add(net(fromNet));
    inner(fromNet, way, toNet, words);
    words.add(net(toNet));
    return String.join(" - ", words);
  }

  /** A way to a coil, through it, and away from it. */
  String through(int fromNet, Way to, Load coil, boolean turned, Way from, int toNet) {
    Relay relay = (Relay) coil.part();
    List<String> words = new ArrayList<>();
    words.add(net(fromNet));
    inner(fromNet, to, turned ? relay.coil2() : relay.coil1(), words);
    words.add(relay.name() + (turned ? " coil2" : " coil1"));
    words.add(relay.name() + (turned ? " coil1" : " coil2"));
    inner(turned ? relay.coil1() : relay.coil2(), from, toNet, words);
    words.add(net(toNet));
    return String.join(" - ", words);
  }

  private void inner(int fromNet, Way way, int toNet, List<String> words) {
    int net = fromNet;
    int node = way.from();
    for (int l : way.links()) {
      Link link = circuit.link(l);
      boolean forward = link.from() == node;
      joints(net, forward ? link.fromNet() : link.toNet(), words);
      words.addAll(link(link, forward));
      net = forward ? link.toNet() : link.fromNet();
      node = link.other(node);
    }
    joints(net, toNet, words);
  }

  private List<String> link(Link link, boolean forward) {
    String name = link.part().name();
    List<String> ends = new ArrayList<>(List.of(name));
    if (link.isContact()) {
      ends = new ArrayList<>(contact(link));
    } else if (link.oneWay()) {
      ends = new ArrayList<>(List.of(name + " anode", name + " cathode"));
    }
    if (!forward) {
      Collections.reverse(ends);
    }
    return ends;
  }

  private List<String> contact(Link link) {
    Relay relay = circuit.relays().get(link.relay());
    return List.of(
        terminal(relay, "com", link.pole()),
        terminal(relay, link.whenOperated() ? "no" : "nc", link.pole()));
  }

  /** {@code K3 com}, or {@code K3 com2} where the relay has more than one pole wired. */
  static String terminal(Relay relay, String side, int pole) {
    boolean one = relay.poles().stream().filter(Words::isWired).count() <= 1;
    return relay.name() + " " + side + (one ? "" : pole + 1);
  }

  static boolean isWired(Pole pole) {
    return pole.com() != Terminal.NOT_WIRED
        || pole.no() != Terminal.NOT_WIRED
        || pole.nc() != Terminal.NOT_WIRED;
  }

  /** Names of the wires and fuses on the shortest way between two nets of one node. */
  private void joints(int from, int to, List<String> words) {
    Joint[] cameBy = new Joint[circuit.nodes()];
    boolean[] seen = new boolean[circuit.nodes()];
    Deque<Integer> waiting = new ArrayDeque<>(List.of(from));
    seen[from] = true;
    while (!waiting.isEmpty() && !seen[to]) {
      for (Joint joint : joints.get(waiting.remove())) {
        if (!seen[joint.to()]) {
          seen[joint.to()] = true;
          cameBy[joint.to()] = joint;
          waiting.add(joint.to());
        }
      }
    }
    List<String> between = new ArrayList<>();
    for (int net = to; net != from && cameBy[net] != null; net = cameBy[net].from()) {
      between.add(cameBy[net].part().name());
    }
    Collections.reverse(between);
    words.addAll(between);
  }

  /** {@code a, b and 3 more}. */
  static String listed(List<String> names, int most) {
    if (names.size() <= most) {
      return String.join(", ", names);
    }
    return String.join(", ", names.subList(0, most)) + " and " + (names.size() - most) + " more";
  }

  /** Which relays a way asks to be operated and which released, such as {@code K1 operated}. */
  String states(Way... ways) {
    List<String> operated = new ArrayList<>();
    List<String> released = new ArrayList<>();
    for (Way way : Arrays.asList(ways)) {
      for (int l : way.links()) {
        Link link = circuit.link(l);
        if (link.isContact()) {
          List<String> side = link.whenOperated() ? operated : released;
          if (!side.contains(link.part().name())) {
            side.add(link.part().name());
          }
        }
      }
    }
    List<String> words = new ArrayList<>();
    if (!operated.isEmpty()) {
      words.add(listed(operated, 6) + " operated");
    }
    if (!released.isEmpty()) {
      words.add(listed(released, 6) + " released");
    }
    return String.join(" and ", words);
  }
}
