package cardproof.sim.circuit;

import java.util.Arrays;

/**
 * Judges a group of clusters in which diodes or loads between nodes are about: as much of it as
 * possible by what could lift or pull down each, the rest by nodal analysis.
 *
 * <p>Not joined to a rail and nothing can lift it: it stands at 0. Nothing can pull it down: at the
 * supply's level, unless only a diode lifts it. Both: current flows through loads in series, and it
 * is worked out, as is what lies behind more than one diode or behind one with loads to other
 * nodes.
 */
final class WeakGroups {
  private static final int FAR = 1000;
  private static final double SLACK_VOLTS = 1e-9;

  private final Topology topology;
  private final Clusters clusters;
  private final byte[] stored;
  private final Tally tally;
  private final Links links;
  private final WeakRegion region;
  private final int[] high;
  private final int[] low;
  private final boolean[] lifted;
  private final boolean[] atTop;
  private final boolean[] pulled;
  private final boolean[] need;
  private double supply;

  WeakGroups(
      Topology topology,
      Clusters clusters,
      boolean[] closed,
      byte[] stored,
      double[] volts,
      Tally tally) {
    this.topology = topology;
    this.clusters = clusters;
    this.stored = stored;
    this.tally = tally;
    this.links = new Links(topology, clusters);
    this.region = new WeakRegion(topology, clusters, closed, tally);
    this.high = new int[topology.nodes];
    this.low = new int[topology.nodes];
    this.lifted = new boolean[topology.nodes];
    this.atTop = new boolean[topology.nodes];
    this.pulled = new boolean[topology.nodes];
    this.need = new boolean[topology.nodes];
  }

  void judge(double supplyVolts) {
    supply = supplyVolts;
    do {
      links.fill();
      reach();
    } while (extend());
    lift();
    boolean any = place();
    if (any) {
      tally.weakEvaluations++;
      spreadNeed();
      solveAll();
    }
  }

  private void reach() {
    for (int k = 0; k < clusters.count; k++) {
      int seen = clusters.flags[k];
      high[k] = distance(seen, Clusters.ON_SUPPLY, Clusters.FROM_SUPPLY_BY_DIODE);
      low[k] = distance(seen, Clusters.ON_GROUND, Clusters.TO_GROUND_BY_DIODE);
    }
    links.diodesAway(high, FAR, true);
    links.diodesAway(low, FAR, false);
    for (int k = 0; k < clusters.count; k++) {
      clusters.put(k, labelOf(k));
    }
  }

  private static int distance(int seen, int byContact, int byDiode) {
    return (seen & byContact) != 0 ? 0 : (seen & byDiode) != 0 ? 1 : FAR;
  }

  private byte labelOf(int k) {
    boolean up = high[k] < FAR;
    boolean down = low[k] < FAR;
    if (up && down) {
      return Label.SHORT;
    }
    if (up) {
      return high[k] == 0 ? Label.HIGH : Label.HIGH_BY_DIODE;
    }
    if (down) {
      return low[k] == 0 ? Label.LOW : Label.LOW_BY_DIODE;
    }
    boolean nothing =
        (clusters.flags[k] & (Topology.LOAD_TO_SUPPLY | Topology.LOAD_TO_NODE | Topology.DIODE))
            == 0;
    return nothing ? Label.DEAD : Label.FLOATING;
  }

  /** Takes in what floats beyond the loads of this group, where that may feel the change. */
  private boolean extend() {
    int before = clusters.count;
    for (int k = 0; k < before; k++) {
      if ((clusters.flags[k] & Topology.LOAD_TO_NODE) != 0) {
        extendFrom(k);
      }
    }
    return clusters.count > before;
  }

  private void extendFrom(int k) {
    boolean solid = Label.solid(clusters.label[k]);
    for (int i = clusters.first[k]; i < clusters.first[k + 1]; i++) {
      int node = clusters.node[i];
      if ((topology.flags[node] & Topology.LOAD_TO_NODE) == 0
          || solid && stored[node] == clusters.label[k]) {
        continue;
      }
      for (int l = topology.loadsAt.start()[node]; l < topology.loadsAt.start()[node + 1]; l++) {
        int there = topology.otherEnd(topology.loadsAt.item()[l], node);
        if (there >= Topology.FIRST_NODE && !clusters.has(there) && !Label.solid(stored[there])) {
          clusters.growFrom(there);
        }
      }
    }
  }

  /** Which clusters something could lift above 0, and which something could pull below the top. */
  private void lift() {
    for (int k = 0; k < clusters.count; k++) {
      int seen = clusters.flags[k];
      lifted[k] = high[k] < FAR || (seen & Topology.LOAD_TO_SUPPLY) != 0;
      pulled[k] = low[k] < FAR || (seen & Topology.LOAD_TO_GROUND) != 0;
      if ((seen & Topology.LOAD_TO_NODE) != 0 && !Label.solid(clusters.label[k])) {
        liftByLoads(k);
      }
    }
    for (int k = 0; k < clusters.count; k++) {
      atTop[k] = lifted[k] && high[k] == FAR;
    }
    links.spreadOverLoads(atTop, clusters.label);
    links.spread(lifted, true, clusters.label);
    links.spread(pulled, false, clusters.label);
  }

  private void liftByLoads(int k) {
    for (int i = clusters.first[k]; i < clusters.first[k + 1]; i++) {
      int node = clusters.node[i];
      for (int l = topology.loadsAt.start()[node]; l < topology.loadsAt.start()[node + 1]; l++) {
        int there = topology.otherEnd(topology.loadsAt.item()[l], node);
        if (there >= Topology.FIRST_NODE) {
          byte label = clusters.labelOf(there);
          lifted[k] |= label == Label.HIGH || label == Label.SHORT;
          pulled[k] |= label == Label.LOW || label == Label.SHORT;
        }
      }
    }
  }

  /** Levels of all that needs no working out; whether anything does. */
  private boolean place() {
    boolean any = false;
    for (int k = 0; k < clusters.count; k++) {
      byte label = clusters.label[k];
      boolean netLoads = (clusters.flags[k] & Topology.LOAD_TO_NODE) != 0;
      need[k] = false;
      if (label == Label.FLOATING) {
        need[k] = lifted[k] && (pulled[k] || !atTop[k]);
        clusters.level[k] = lifted[k] ? supply : 0;
      } else if (label == Label.HIGH_BY_DIODE) {
        need[k] = high[k] > 1 || netLoads;
        clusters.level[k] = need[k] ? 0 : behindDiode(k, true);
      } else if (label == Label.LOW_BY_DIODE) {
        need[k] = low[k] > 1 || netLoads;
        clusters.level[k] = need[k] ? 0 : behindDiode(k, false);
      }
      any |= need[k];
    }
    return conducting() | any;
  }

  /** Two that were placed each for itself may stand so far apart that a diode between conducts. */
  private boolean conducting() {
    boolean any = false;
    for (int i = 0; i < links.count; i++) {
      int a = links.from[i];
      int c = links.to[i];
      boolean open = !Label.solid(clusters.label[a]) && !Label.solid(clusters.label[c]);
      if (links.diode[i] && open && !need[a] && !need[c] && conducts(a, c)) {
        need[a] = true;
        need[c] = true;
        any = true;
      }
    }
    return any;
  }

  private boolean conducts(int a, int c) {
    return clusters.level[a] - clusters.level[c] > DiodeModel.VOLTS + SLACK_VOLTS;
  }

  /** One diode in the way, or some beside each other, and loads to the rails alone. */
  private double behindDiode(int k, boolean fromSupply) {
    double up = clusters.siemensTo(k, Topology.SUPPLY);
    double down = clusters.siemensTo(k, Topology.GROUND);
    double diodes = diodesOnRail(k, fromSupply) / DiodeModel.OHMS;
    double rail = fromSupply ? supply : 0;
    double behind = fromSupply ? rail - DiodeModel.VOLTS : rail + DiodeModel.VOLTS;
    double without = up + down == 0 ? behind : supply * up / (up + down);
    if (fromSupply ? without >= behind : without <= behind) {
      return Math.max(0, up + down == 0 && !fromSupply ? 0 : without);
    }
    return Math.max(0, (behind * diodes + supply * up) / (diodes + up + down));
  }

  /** How many diodes lead to a cluster from the supply, or from it to ground. */
  private int diodesOnRail(int k, boolean fromSupply) {
    int count = 0;
    for (int i = clusters.first[k]; i < clusters.first[k + 1]; i++) {
      int node = clusters.node[i];
      for (int d = topology.diodesAt.start()[node]; d < topology.diodesAt.start()[node + 1]; d++) {
        int diode = topology.diodesAt.item()[d];
        int here = fromSupply ? topology.cathode[diode] : topology.anode[diode];
        int there = fromSupply ? topology.anode[diode] : topology.cathode[diode];
        byte wanted = fromSupply ? Label.HIGH : Label.LOW;
        count += here == node && clusters.labelOf(there) == wanted ? 1 : 0;
      }
    }
    return count;
  }

  /** What is behind a diode and touches a group that is worked out belongs to that group. */
  private void spreadNeed() {
    for (boolean more = true; more; ) {
      more = false;
      for (int i = 0; i < links.count; i++) {
        more |= spreadNeed(links.from[i], links.to[i]) | spreadNeed(links.to[i], links.from[i]);
      }
    }
  }

  private boolean spreadNeed(int source, int sink) {
    byte label = clusters.label[sink];
    boolean joins =
        need[source]
            && !need[sink]
            && (label == Label.HIGH_BY_DIODE || label == Label.LOW_BY_DIODE);
    need[sink] |= joins;
    return joins;
  }

  private void solveAll() {
    region.start();
    for (int k = 0; k < clusters.count; k++) {
      if (need[k] && !region.isTaken(k)) {
        gather(k);
        region.solve(supply);
      }
    }
    Arrays.fill(need, 0, clusters.count, false);
  }

  private void gather(int seed) {
    region.begin(seed);
    for (boolean more = true; more; ) {
      more = false;
      for (int i = 0; i < links.count; i++) {
        int a = links.from[i];
        int b = links.to[i];
        if (need[a] && need[b] && region.isTaken(a) != region.isTaken(b)) {
          region.add(region.isTaken(a) ? b : a);
          more = true;
        }
      }
    }
  }
}
