package cardproof.sim.circuit;

import cardproof.card.wiring.Part;
import cardproof.card.wiring.Terminal;
import cardproof.card.wiring.Wire;
import cardproof.card.wiring.Wiring;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.IntStream;

/** Which terminals and lines are one piece of metal, wires and closed switches taken as metal. */
final class Joints {
  private final int[] parent;
  private final TreeMap<Integer, TreeSet<String>> ends = new TreeMap<>();

  private Joints(int nets) {
    parent = IntStream.range(0, nets).toArray();
  }

  static Joints of(FaultyWiring faulty, boolean present) {
    Wiring wiring = faulty.wiring();
    Joints joints = new Joints(wiring.nets().size());
    for (Part part : wiring.parts()) {
      if (part instanceof Wire wire
          && wire.first() != Terminal.NOT_WIRED
          && wire.second() != Terminal.NOT_WIRED) {
        joints.join(wire.first(), wire.second());
      }
    }
    for (SpellSwitch one : faulty.switches()) {
      if (one.closedWhilePresent() == present) {
        joints.join(one.firstNet(), one.secondNet());
      }
    }
    joints.add(wiring.supply(), "supply");
    joints.add(wiring.ground(), "ground");
    for (Part part : wiring.parts()) {
      if (!(part instanceof Wire)) {
        part.terminals()
            .forEach(terminal -> joints.add(terminal.net(), part.name() + "." + terminal.name()));
      }
    }
    for (int line = 0; line < wiring.lineNets().size(); line++) {
      joints.add(wiring.lineNets().get(line), "line " + line);
    }
    return joints;
  }

  private void add(int net, String end) {
    if (net != Terminal.NOT_WIRED) {
      ends.computeIfAbsent(root(net), root -> new TreeSet<>()).add(end);
    }
  }

  private void join(int first, int second) {
    parent[root(first)] = root(second);
  }

  private int root(int net) {
    int root = net;
    while (parent[root] != root) {
      root = parent[root];
    }
    return root;
  }

  /** Groups of two or more; what hangs alone is joined to nothing. */
  Set<List<String>> groups() {
    Set<List<String>> groups = new HashSet<>();
    ends.values().stream()
        .filter(group -> group.size() > 1)
        .forEach(group -> groups.add(new ArrayList<>(group)));
    return groups;
  }
}
