package cardproof.card.wiring.meter;

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
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.List;

/**
 * A card at rest as resistors and diodes: wires, fuses and normally closed contacts join nets.
 * Nodal analysis by Gaussian elimination; diodes are 0.7 V and 1 ohm forward and nothing backward,
 * and which of them conduct is found by trying again until it holds. Not thread safe.
 */
final class Network {
  private static final int MOST_ROUNDS = 400;
  private static final double SLACK_VOLTS = 1e-6;

  private record Branch(int first, int second, double ohms, boolean diode) {
    int other(int node) {
      return node == first ? second : first;
    }
  }

  private final int[] parent;
  private final List<Branch> branches = new ArrayList<>();
  private final List<List<Integer>> at = new ArrayList<>();

  Network(Wiring wiring) {
    parent = new int[wiring.nets().size()];
    Arrays.setAll(parent, net -> net);
    for (Part part : wiring.parts()) {
      if (part instanceof Wire wire) {
        join(wire.first(), wire.second());
      } else if (part instanceof Fuse fuse) {
        join(fuse.first(), fuse.second());
      } else if (part instanceof Relay relay) {
        for (Pole pole : relay.poles()) {
          join(pole.com(), pole.nc());
        }
      }
    }
    for (int net = 0; net < parent.length; net++) {
      at.add(new ArrayList<>());
    }
    for (Part part : wiring.parts()) {
      if (part instanceof Relay relay) {
        branch(relay.coil1(), relay.coil2(), relay.type().coilOhms(), false);
      } else if (part instanceof Lamp lamp) {
        branch(lamp.first(), lamp.second(), lamp.ohms(), false);
      } else if (part instanceof Resistor resistor) {
        branch(resistor.first(), resistor.second(), resistor.ohms(), false);
      } else if (part instanceof Diode diode) {
        branch(diode.anode(), diode.cathode(), Diode.FORWARD_OHMS, true);
      }
    }
  }

  private void branch(int first, int second, double ohms, boolean diode) {
    if (first == Terminal.NOT_WIRED
        || second == Terminal.NOT_WIRED
        || root(first) == root(second)) {
      return;
    }
    branches.add(new Branch(root(first), root(second), ohms, diode));
    at.get(root(first)).add(branches.size() - 1);
    at.get(root(second)).add(branches.size() - 1);
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

  /** With no diode conducting; infinite where nothing joins the nets. */
  double ohms(int net, int rail) {
    int from = root(net);
    int to = root(rail);
    if (from == to) {
      return 0;
    }
    boolean[] conducts = new boolean[branches.size()];
    double[] volts = solve(from, to, 1, 0, conducts);
    return volts == null ? Double.POSITIVE_INFINITY : volts[from];
  }

  /** Volts from one net to another that is the return, fed through a resistor. */
  double fed(int net, int back, double volts, double feedOhms) {
    int from = root(net);
    int to = root(back);
    if (from == to) {
      return 0;
    }
    boolean[] conducts = new boolean[branches.size()];
    for (int round = 0; round < MOST_ROUNDS; round++) {
      double[] found = solve(from, to, volts / feedOhms, 1 / feedOhms, conducts);
      if (!flip(conducts, found, round)) {
        return found[from];
      }
    }
    throw new IllegalStateException("diodes of the network do not come to rest");
  }

  /** Corrects what every diode does, after many rounds one at a time; whether any was wrong. */
  private boolean flip(boolean[] conducts, double[] volts, int round) {
    boolean flipped = false;
    for (int b = 0; b < conducts.length; b++) {
      Branch branch = branches.get(b);
      if (branch.diode()) {
        double across = volts[branch.first()] - volts[branch.second()];
        // one that leads nowhere has exactly its forward voltage, and stays as it is
        double needed = Diode.FORWARD_VOLTS + (conducts[b] ? -SLACK_VOLTS : SLACK_VOLTS);
        boolean should = across > needed;
        if (should != conducts[b]) {
          conducts[b] = should;
          flipped = true;
          if (round > MOST_ROUNDS / 4) {
            return true;
          }
        }
      }
    }
    return flipped;
  }

  /**
   * Volts of every node against {@code to}, with a current into {@code from} that a conductance
   * beside it shares; null where nothing joins them and there is no such conductance.
   */
  private double[] solve(int from, int to, double amps, double siemens, boolean[] conducts) {
    int[] row = new int[parent.length];
    Arrays.fill(row, -1);
    List<Integer> nodes = reached(from, to, conducts, row);
    boolean joined = row[to] >= 0;
    double[] volts = new double[parent.length];
    if (!joined && siemens == 0) {
      return null;
    }
    int size = nodes.size();
    double[][] matrix = new double[size][size + 1];
    for (int node : nodes) {
      int r = row[node];
      for (int b : at.get(node)) {
        Branch branch = branches.get(b);
        if (branch.diode() && !conducts[b]) {
          continue;
        }
        double g = 1 / branch.ohms();
        matrix[r][r] += g;
        if (branch.other(node) != to) {
          matrix[r][row[branch.other(node)]] -= g;
        }
        if (branch.diode()) {
          matrix[r][size] += (node == branch.first() ? g : -g) * Diode.FORWARD_VOLTS;
        }
      }
    }
    matrix[row[from]][row[from]] += siemens;
    matrix[row[from]][size] += amps;
    Elimination.solve(matrix);
    for (int node : nodes) {
      volts[node] = matrix[row[node]][size];
    }
    return volts;
  }

  /**
   * Nodes joined to the first, which are given rows; of the last only whether it is one of them.
   */
  private List<Integer> reached(int from, int to, boolean[] conducts, int[] row) {
    List<Integer> nodes = new ArrayList<>();
    Deque<Integer> waiting = new ArrayDeque<>();
    row[from] = 0;
    nodes.add(from);
    waiting.add(from);
    while (!waiting.isEmpty()) {
      for (int b : at.get(waiting.peek())) {
        Branch branch = branches.get(b);
        int other = branch.other(waiting.peek());
        if ((!branch.diode() || conducts[b]) && row[other] < 0) {
          if (other == to) {
            row[to] = Integer.MAX_VALUE;
          } else {
            row[other] = nodes.size();
            nodes.add(other);
            waiting.add(other);
          }
        }
      }
      waiting.remove();
    }
    return nodes;
  }
}
