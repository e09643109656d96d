package cardproof.sim.circuit;

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
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;

/**
 * A card at one instant, worked out anew as a whole by nodal analysis: slow, plain, and nothing of
 * the engine in it, so that the engine can be held against it.
 */
final class WholeNet {
  private static final double LEAK = 1e-9;
  private static final int ROUNDS = 20;

  record Load(int first, int second, double ohms) {}

  final Wiring wiring;
  final List<Relay> relays;
  final double supply;
  final List<Load> loads = new ArrayList<>();
  final List<Diode> diodes = new ArrayList<>();
  private final int[] root;
  private final int[] fixed;

  /** By net, after {@link #solve}. */
  final double[] volts;

  boolean shorted;
  boolean converged;
  int rounds;

  /** Of the clusters: how many, and how many belong to a group that reachability cannot judge. */
  int clusters;

  int unsure;

  WholeNet(Wiring wiring, double supply, BitSet watchedLines, double watchOhms) {
    this.wiring = wiring;
    this.relays = wiring.relays();
    this.supply = supply;
    int nets = wiring.nets().size();
    this.fixed = new int[nets];
    this.root = new int[nets];
    this.volts = new double[nets];
    for (int n = 0; n < nets; n++) {
      fixed[n] = n;
    }
    for (Part part : wiring.parts()) {
      add(part);
    }
    watchedLines.stream()
        .forEach(
            line -> loads.add(new Load(wiring.lineNets().get(line), wiring.ground(), watchOhms)));
  }

  private void add(Part part) {
    if (part.terminals().stream().limit(2).anyMatch(t -> !t.wired())) {
      return;
    }
    if (part instanceof Relay relay) {
      loads.add(new Load(relay.coil1(), relay.coil2(), relay.type().coilOhms()));
    } else if (part instanceof Resistor r) {
      loads.add(new Load(r.first(), r.second(), r.ohms()));
    } else if (part instanceof Lamp lamp) {
      loads.add(new Load(lamp.first(), lamp.second(), lamp.ohms()));
    } else if (part instanceof Diode diode) {
      diodes.add(diode);
    } else if (part instanceof Wire wire) {
      join(fixed, wire.first(), wire.second());
    } else if (part instanceof Fuse fuse) {
      join(fixed, fuse.first(), fuse.second());
    }
  }

  double lineVolts(int line) {
    return volts[wiring.lineNets().get(line)];
  }

  double coilVolts(Relay relay) {
    return relay.coil1() == Terminal.NOT_WIRED || relay.coil2() == Terminal.NOT_WIRED
        ? 0
        : volts[relay.coil1()] - volts[relay.coil2()];
  }

  /** Amperes out of the supply. */
  double amps() {
    int plus = find(root, wiring.supply());
    double sum = 0;
    for (Load load : loads) {
      boolean first = find(root, load.first) == plus;
      boolean second = find(root, load.second) == plus;
      double through = (volts[load.first] - volts[load.second]) / load.ohms;
      sum += first == second ? 0 : first ? through : -through;
    }
    for (Diode d : diodes) {
      boolean anode = find(root, d.anode()) == plus;
      boolean cathode = find(root, d.cathode()) == plus;
      double over = volts[d.anode()] - volts[d.cathode()] - Diode.FORWARD_VOLTS;
      double through = over > 0 ? over / Diode.FORWARD_OHMS : 0;
      sum += anode == cathode ? 0 : anode ? through : -through;
    }
    return sum;
  }

  /** With these relays up and these lines driven. */
  void solve(BitSet operated, BitSet driven) {
    System.arraycopy(fixed, 0, root, 0, root.length);
    for (int r = 0; r < relays.size(); r++) {
      for (Pole pole : relays.get(r).poles()) {
        int to = operated.get(r) ? pole.no() : pole.nc();
        if (pole.com() >= 0 && to >= 0) {
          join(root, pole.com(), to);
        }
      }
    }
    driven.stream().forEach(line -> join(root, wiring.lineNets().get(line), wiring.supply()));
    solve();
  }

  /** With these pairs of nets joined. */
  void solve(List<int[]> pairs) {
    System.arraycopy(fixed, 0, root, 0, root.length);
    pairs.forEach(pair -> join(root, pair[0], pair[1]));
    solve();
  }

  private void solve() {
    int plus = find(root, wiring.supply());
    int ground = find(root, wiring.ground());
    int[] index = new int[root.length];
    Arrays.fill(index, -1);
    int count = 0;
    for (int n = 0; n < root.length; n++) {
      if (find(root, n) == n && n != plus && n != ground) {
        index[n] = count++;
      }
    }
    shorted = plus == ground;
    if (!shorted) {
      classify(plus, ground, index, count);
    }
    double[] v = shorted ? new double[count] : nodal(index, count, plus);
    for (int n = 0; n < root.length; n++) {
      int r = find(root, n);
      volts[n] = index[r] >= 0 ? v[index[r]] : r == plus ? supply : 0;
    }
  }

  /** Which groups reachability could not judge alone: the question of the experiment. */
  private void classify(int plus, int ground, int[] index, int count) {
    boolean[] high = reach(plus, ground, true);
    boolean[] low = reach(ground, plus, false);
    shorted |= high[ground];
    int[] group = new int[root.length];
    for (int n = 0; n < root.length; n++) {
      group[n] = n;
    }
    for (Load load : loads) {
      joinFloating(group, find(root, load.first), find(root, load.second), high, low);
    }
    for (Diode d : diodes) {
      joinFloating(group, find(root, d.anode()), find(root, d.cathode()), high, low);
    }
    int[] touch = new int[root.length];
    for (Load load : loads) {
      int a = find(root, load.first);
      int b = find(root, load.second);
      touch[find(group, a)] |= high[b] ? 1 : low[b] ? 2 : 0;
      touch[find(group, b)] |= high[a] ? 1 : low[a] ? 2 : 0;
    }
    clusters = count;
    unsure = 0;
    for (int n = 0; n < root.length; n++) {
      if (find(root, n) == n && !high[n] && !low[n] && touch[find(group, n)] == 3) {
        unsure++;
      }
    }
  }

  private boolean[] reach(int from, int never, boolean forward) {
    boolean[] seen = new boolean[root.length];
    seen[from] = true;
    for (boolean more = true; more; ) {
      more = false;
      for (Diode d : diodes) {
        int a = find(root, forward ? d.anode() : d.cathode());
        int b = find(root, forward ? d.cathode() : d.anode());
        if (seen[a] && a != never && !seen[b]) {
          seen[b] = true;
          more = true;
        }
      }
    }
    return seen;
  }

  private static void joinFloating(int[] group, int a, int b, boolean[] high, boolean[] low) {
    if (!high[a] && !low[a] && !high[b] && !low[b]) {
      join(group, a, b);
    }
  }

  private double[] nodal(int[] index, int count, int plus) {
    boolean[] on = new boolean[diodes.size()];
    double[] v = new double[count];
    converged = false;
    for (rounds = 0; rounds < ROUNDS && !converged; rounds++) {
      double[][] g = new double[count][count + 1];
      for (int i = 0; i < count; i++) {
        g[i][i] = LEAK;
      }
      for (Load load : loads) {
        stamp(g, index, plus, load.first, load.second, 1 / load.ohms, 0);
      }
      for (int d = 0; d < on.length; d++) {
        if (on[d]) {
          double siemens = 1 / Diode.FORWARD_OHMS;
          Diode one = diodes.get(d);
          stamp(g, index, plus, one.anode(), one.cathode(), siemens, Diode.FORWARD_VOLTS * siemens);
        }
      }
      v = eliminate(g);
      converged = true;
      for (int d = 0; d < on.length; d++) {
        double across =
            at(v, index, plus, diodes.get(d).anode()) - at(v, index, plus, diodes.get(d).cathode());
        boolean now = across > Diode.FORWARD_VOLTS;
        converged &= now == on[d];
        on[d] = now;
      }
    }
    return v;
  }

  private double at(double[] v, int[] index, int plus, int net) {
    int r = find(root, net);
    return index[r] >= 0 ? v[index[r]] : r == plus ? supply : 0;
  }

  private void stamp(
      double[][] g, int[] index, int plus, int first, int second, double siemens, double amps) {
    int a = find(root, first);
    int b = find(root, second);
    if (a == b) {
      return;
    }
    one(g, index, a, b, plus, siemens, amps);
    one(g, index, b, a, plus, siemens, -amps);
  }

  private void one(
      double[][] g, int[] index, int here, int there, int plus, double siemens, double amps) {
    if (index[here] < 0) {
      return;
    }
    double[] row = g[index[here]];
    row[index[here]] += siemens;
    row[row.length - 1] += amps;
    if (index[there] >= 0) {
      row[index[there]] -= siemens;
    } else if (there == plus) {
      row[row.length - 1] += siemens * supply;
    }
  }

  private static double[] eliminate(double[][] g) {
    int n = g.length;
    for (int p = 0; p < n; p++) {
      for (int r = p + 1; r < n; r++) {
        double factor = g[r][p] / g[p][p];
        if (factor != 0) {
          for (int c = p; c <= n; c++) {
            g[r][c] -= factor * g[p][c];
          }
        }
      }
    }
    double[] v = new double[n];
    for (int r = n - 1; r >= 0; r--) {
      double sum = g[r][n];
      for (int c = r + 1; c < n; c++) {
        sum -= g[r][c] * v[c];
      }
      v[r] = sum / g[r][r];
    }
    return v;
  }

  private static void join(int[] parent, int a, int b) {
    int x = find(parent, a);
    int y = find(parent, b);
    parent[Math.max(x, y)] = Math.min(x, y);
  }

  private static int find(int[] parent, int n) {
    int at = n;
    while (parent[at] != at) {
      at = parent[at];
    }
    return at;
  }
}
