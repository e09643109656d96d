package cardproof.sim.circuit;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;

/**
 * One set of clusters of which the levels are worked out together by nodal analysis. The same
 * clusters between the same levels were mostly seen before, so levels are kept by a 64-bit key over
 * nodes, closed switches and the levels around (Zobrist, 1970).
 */
final class WeakRegion {
  private static final int MOST_KEPT = 20_000;
  private static final long NODE = 1L << 40;
  private static final long SWITCH = 2L << 40;
  private static final long LOAD = 3L << 40;
  private static final long DIODE_AT = 4L << 40;

  private final Topology topology;
  private final Clusters clusters;
  private final boolean[] closed;
  private final Tally tally;
  private final NodalSolver solver = new NodalSolver();
  private final Map<Long, double[]> kept = new HashMap<>();
  private final int[] members;
  private final int[] lowestNode;
  private final int[] placeOf;
  private int count;

  WeakRegion(Topology topology, Clusters clusters, boolean[] closed, Tally tally) {
    this.topology = topology;
    this.clusters = clusters;
    this.closed = closed;
    this.tally = tally;
    this.members = new int[topology.nodes];
    this.lowestNode = new int[topology.nodes];
    this.placeOf = new int[topology.nodes];
  }

  /** A new evaluation: no cluster is taken. */
  void start() {
    Arrays.fill(placeOf, 0, clusters.count, -1);
  }

  void begin(int cluster) {
    count = 0;
    add(cluster);
  }

  boolean isTaken(int cluster) {
    return placeOf[cluster] >= 0;
  }

  void add(int cluster) {
    placeOf[cluster] = 0;
    int lowest = Integer.MAX_VALUE;
    for (int i = clusters.first[cluster]; i < clusters.first[cluster + 1]; i++) {
      lowest = Math.min(lowest, clusters.node[i]);
    }
    lowestNode[cluster] = lowest;
    int at = count++;
    while (at > 0 && lowestNode[members[at - 1]] > lowest) {
      members[at] = members[at - 1];
      at--;
    }
    members[at] = cluster;
  }

  /** Sets the levels of all clusters of this region. */
  void solve(double supply) {
    tally.groups++;
    for (int m = 0; m < count; m++) {
      placeOf[members[m]] = m;
    }
    long key = key(supply);
    double[] level = kept.get(key);
    if (level == null || level.length != count) {
      level = Arrays.copyOf(analyse(), count);
      if (kept.size() >= MOST_KEPT) {
        kept.clear();
      }
      kept.put(key, level);
    } else {
      tally.fromMemo++;
    }
    for (int m = 0; m < count; m++) {
      clusters.level[members[m]] = Math.max(0, Math.min(supply, level[m]));
    }
  }

  private double[] analyse() {
    solver.start(count);
    for (int m = 0; m < count; m++) {
      int cluster = members[m];
      for (int i = clusters.first[cluster]; i < clusters.first[cluster + 1]; i++) {
        addLoads(m, clusters.node[i]);
        addDiodes(m, clusters.node[i]);
      }
    }
    double[] level = solver.solve();
    tally.mostRounds = Math.max(tally.mostRounds, solver.rounds());
    tally.slowGroups += solver.rounds() > NodalSolver.ROUNDS ? 1 : 0;
    return level;
  }

  private void addLoads(int place, int node) {
    for (int l = topology.loadsAt.start()[node]; l < topology.loadsAt.start()[node + 1]; l++) {
      int load = topology.loadsAt.item()[l];
      int there = topology.otherEnd(load, node);
      int other = placeOf(there);
      if (other < 0) {
        solver.toFixed(place, clusters.levelOf(there), topology.siemens[load]);
      } else if (other != place && topology.loadA[load] == node) {
        solver.between(place, other, topology.siemens[load]);
      }
    }
  }

  private void addDiodes(int place, int node) {
    for (int d = topology.diodesAt.start()[node]; d < topology.diodesAt.start()[node + 1]; d++) {
      int diode = topology.diodesAt.item()[d];
      boolean forward = topology.anode[diode] == node;
      int there = forward ? topology.cathode[diode] : topology.anode[diode];
      int other = placeOf(there);
      if (other < 0 && forward) {
        solver.diodeToFixed(place, clusters.levelOf(there));
      } else if (other < 0) {
        solver.diodeFromFixed(clusters.levelOf(there), place);
      } else if (other != place && forward) {
        solver.diodeBetween(place, other);
      }
    }
  }

  private int placeOf(int node) {
    int cluster = clusters.of(node);
    return cluster < 0 ? -1 : placeOf[cluster] >= 0 ? inThis(placeOf[cluster], cluster) : -1;
  }

  /** A cluster of an earlier region keeps its place number, but is not one of these members. */
  private int inThis(int place, int cluster) {
    return place < count && members[place] == cluster ? place : -1;
  }

  private long key(double supply) {
    long sum = Draws.key(count, Double.doubleToLongBits(supply));
    for (int m = 0; m < count; m++) {
      int cluster = members[m];
      for (int i = clusters.first[cluster]; i < clusters.first[cluster + 1]; i++) {
        sum += keyOf(clusters.node[i]);
      }
    }
    return sum;
  }

  private long keyOf(int node) {
    long sum = Draws.key(NODE, node);
    for (int i = topology.switchesAt.start()[node];
        i < topology.switchesAt.start()[node + 1];
        i++) {
      if (closed[topology.switchesAt.item()[i]]) {
        sum += Draws.key(SWITCH, topology.switchesAt.item()[i]);
      }
    }
    for (int l = topology.loadsAt.start()[node]; l < topology.loadsAt.start()[node + 1]; l++) {
      int load = topology.loadsAt.item()[l];
      sum += around(LOAD + load, topology.otherEnd(load, node));
    }
    for (int d = topology.diodesAt.start()[node]; d < topology.diodesAt.start()[node + 1]; d++) {
      int diode = topology.diodesAt.item()[d];
      boolean forward = topology.anode[diode] == node;
      sum += around(DIODE_AT + diode, forward ? topology.cathode[diode] : topology.anode[diode]);
    }
    return sum;
  }

  private long around(long what, int there) {
    return there < Topology.FIRST_NODE || placeOf(there) >= 0
        ? 0
        : Draws.key(what, Double.doubleToLongBits(clusters.levelOf(there)));
  }
}
