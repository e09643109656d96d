package cardproof.sim.circuit;

import java.util.Arrays;

/**
 * Which nodes are joined to which rail, and at what level each stands, kept up to date switch by
 * switch. Only the group of nodes around a changed switch is looked at again.
 *
 * <p>Reachability judges nearly all of it: contacts join both ways, diodes lead forward, the rails
 * are never passed through. A node that is reached from the supply stands at the supply's level,
 * one that reaches ground at 0, one that could only be lifted, or only be pulled down, goes all the
 * way. What is left, between loads on both sides, is worked out by {@link WeakGroups}.
 *
 * <p>Not thread safe.
 */
final class Nets {
  final Topology topology;

  /** By switch. To be changed by {@link #set} alone. */
  final boolean[] closed;

  /** By node. */
  final byte[] label;

  /** By node, in volts. */
  final double[] volts;

  /** Nodes of which label or level has changed in the last {@link #settle}. */
  final int[] changed;

  int changedCount;

  /** Nodes that are joined to both rails, and switches that join them directly. */
  int shorts;

  final Tally tally = new Tally();

  private final Clusters clusters;
  private final WeakGroups weak;
  private final int[] seeds;
  private int seedCount;
  private boolean supplyMoved;
  private double supply;

  /**
   * @param supply volts
   */
  Nets(Topology topology, boolean[] closed, double supply) {
    this.topology = topology;
    this.closed = closed;
    this.supply = supply;
    this.label = new byte[topology.nodes];
    this.volts = new double[topology.nodes];
    this.changed = new int[topology.nodes];
    this.seeds = new int[topology.nodes + 2 * closed.length];
    this.clusters = new Clusters(topology, closed, label, volts);
    this.weak = new WeakGroups(topology, clusters, closed, label, volts, tally);
    Arrays.fill(label, Label.DEAD);
    for (int one = 0; one < closed.length; one++) {
      shorts += closed[one] && acrossRails(one) ? 1 : 0;
    }
    shorts += topology.alwaysShort ? 1 : 0;
    label[Topology.SUPPLY] = Label.HIGH;
    label[Topology.GROUND] = Label.LOW;
    volts[Topology.SUPPLY] = supply;
    seedAll();
  }

  /** What a supply at its limit, or switched off, leaves of its voltage. */
  void setSupply(double now) {
    supply = now;
    volts[Topology.SUPPLY] = now;
    supplyMoved = true;
    seedAll();
  }

  double supply() {
    return supply;
  }

  /** Opens or closes a switch; what that does to the nodes comes with {@link #settle}. */
  void set(int one, boolean close) {
    if (closed[one] == close) {
      return;
    }
    closed[one] = close;
    int a = topology.switchA[one];
    int b = topology.switchB[one];
    if (acrossRails(one)) {
      shorts += close ? 1 : -1;
    } else if (a != b && !changesNothing(label[a], label[b], close)) {
      seed(a);
      seed(b);
    }
  }

  boolean isDirty() {
    return seedCount > 0 || supplyMoved;
  }

  /** Works out what the changed switches did. */
  void settle() {
    changedCount = 0;
    if (supplyMoved) {
      changed[changedCount++] = Topology.SUPPLY;
      supplyMoved = false;
    }
    clusters.start(supply);
    for (int s = 0; s < seedCount; s++) {
      clusters.growFrom(seeds[s]);
    }
    seedCount = 0;
    tally.evaluations++;
    if (clusters.anyHas(Topology.DIODE | Topology.LOAD_TO_NODE)) {
      weak.judge(supply);
    } else {
      clusters.judgePlain();
    }
    store();
  }

  private void store() {
    for (int k = 0; k < clusters.count; k++) {
      byte now = clusters.label[k];
      double level = clusters.level[k];
      for (int i = clusters.first[k]; i < clusters.first[k + 1]; i++) {
        int node = clusters.node[i];
        byte before = label[node];
        if (before != now || volts[node] != level) {
          shorts += (now == Label.SHORT ? 1 : 0) - (before == Label.SHORT ? 1 : 0);
          label[node] = now;
          volts[node] = level;
          changed[changedCount++] = node;
        }
      }
    }
  }

  private void seedAll() {
    seedCount = 0;
    for (int node = Topology.FIRST_NODE; node < topology.nodes; node++) {
      seeds[seedCount++] = node;
    }
  }

  private void seed(int node) {
    if (node >= Topology.FIRST_NODE) {
      if (seedCount == seeds.length) {
        seedAll();
      } else {
        seeds[seedCount++] = node;
      }
    }
  }

  /** Between two dead nodes, or closing between two that stand on one rail already. */
  private static boolean changesNothing(byte a, byte b, boolean close) {
    return a == b && (a == Label.DEAD || close && (a == Label.HIGH || a == Label.LOW));
  }

  private boolean acrossRails(int one) {
    return topology.switchA[one] < Topology.FIRST_NODE
        && topology.switchB[one] < Topology.FIRST_NODE
        && topology.switchA[one] != topology.switchB[one];
  }
}
