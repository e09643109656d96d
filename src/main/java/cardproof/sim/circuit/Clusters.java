package cardproof.sim.circuit;

/**
 * The group of nodes around changed switches, as clusters: nodes that closed switches join. Filled
 * anew for each evaluation. Reachability is a matter of clusters: if one node of it touches a rail
 * by a closed switch, all do.
 */
final class Clusters {
  /** Beside the flags of {@link Topology}: touches a rail by a closed switch, or by a diode. */
  static final int ON_SUPPLY = 1 << 8;

  static final int ON_GROUND = 1 << 9;
  static final int FROM_SUPPLY_BY_DIODE = 1 << 10;
  static final int TO_GROUND_BY_DIODE = 1 << 11;

  final int[] node;
  final int[] first;
  final int[] flags;
  final byte[] label;
  final double[] level;
  int count;

  private final Topology topology;
  private final boolean[] closed;
  private final int[] clusterOf;
  private final int[] stamp;
  private final byte[] stored;
  private final double[] storedVolts;
  private int now;
  private int total;
  private int allFlags;
  private double supply;

  Clusters(Topology topology, boolean[] closed, byte[] stored, double[] storedVolts) {
    this.topology = topology;
    this.closed = closed;
    this.stored = stored;
    this.storedVolts = storedVolts;
    int nodes = topology.nodes;
    node = new int[nodes];
    first = new int[nodes + 1];
    flags = new int[nodes];
    label = new byte[nodes];
    level = new double[nodes];
    clusterOf = new int[nodes];
    stamp = new int[nodes];
  }

  void start(double supplyVolts) {
    supply = supplyVolts;
    now++;
    count = 0;
    total = 0;
    allFlags = 0;
  }

  boolean anyHas(int wanted) {
    return (allFlags & wanted) != 0;
  }

  boolean has(int one) {
    return stamp[one] == now;
  }

  /** Cluster of a node, or below 0 for one outside the group. */
  int of(int one) {
    return stamp[one] == now ? clusterOf[one] : -1;
  }

  byte labelOf(int one) {
    return stamp[one] == now ? label[clusterOf[one]] : stored[one];
  }

  double levelOf(int one) {
    return stamp[one] == now ? level[clusterOf[one]] : storedVolts[one];
  }

  /** Takes in the cluster of a node, and all that diodes lead to from there. */
  void growFrom(int seed) {
    if (has(seed)) {
      return;
    }
    int from = count;
    grow(seed);
    for (int k = from; k < count; k++) {
      if ((flags[k] & Topology.DIODE) != 0) {
        acrossDiodes(k);
      }
    }
  }

  private void grow(int seed) {
    int[] rows = topology.switchesAt.start();
    int[] switches = topology.switchesAt.item();
    int[] beyond = topology.beyond;
    int[] nodeFlags = topology.flags;
    int k = count++;
    int at = total;
    first[k] = at;
    node[total++] = seed;
    stamp[seed] = now;
    clusterOf[seed] = k;
    int seen = 0;
    while (at < total) {
      int here = node[at++];
      seen |= nodeFlags[here];
      for (int i = rows[here], end = rows[here + 1]; i < end; i++) {
        if (!closed[switches[i]]) {
          continue;
        }
        int there = beyond[i];
        if (there < Topology.FIRST_NODE) {
          seen |= there == Topology.SUPPLY ? ON_SUPPLY : ON_GROUND;
        } else if (stamp[there] != now) {
          stamp[there] = now;
          clusterOf[there] = k;
          node[total++] = there;
        }
      }
    }
    flags[k] = seen;
    allFlags |= seen;
    first[count] = total;
  }

  private void acrossDiodes(int k) {
    for (int i = first[k]; i < first[k + 1]; i++) {
      int here = node[i];
      for (int d = topology.diodesAt.start()[here]; d < topology.diodesAt.start()[here + 1]; d++) {
        int diode = topology.diodesAt.item()[d];
        boolean forward = topology.anode[diode] == here;
        int there = forward ? topology.cathode[diode] : topology.anode[diode];
        if (there >= Topology.FIRST_NODE) {
          if (!has(there)) {
            grow(there);
          }
        } else if (forward == (there == Topology.GROUND)) {
          flags[k] |= forward ? TO_GROUND_BY_DIODE : FROM_SUPPLY_BY_DIODE;
        }
      }
    }
  }

  /** Labels and levels where no diode and no load between two nodes is about. */
  void judgePlain() {
    for (int k = 0; k < count; k++) {
      judgePlain(k);
    }
  }

  private void judgePlain(int k) {
    int seen = flags[k];
    boolean high = (seen & ON_SUPPLY) != 0;
    boolean low = (seen & ON_GROUND) != 0;
    if (high || low) {
      put(k, high ? low ? Label.SHORT : Label.HIGH : Label.LOW);
    } else if ((seen & Topology.LOAD_TO_SUPPLY) == 0) {
      put(k, Label.DEAD);
    } else {
      label[k] = Label.FLOATING;
      level[k] = (seen & Topology.LOAD_TO_GROUND) == 0 ? supply : divided(k);
    }
  }

  /** Sets a label with the level that goes with it where nothing else is to be asked. */
  void put(int k, byte now) {
    label[k] = now;
    level[k] = now == Label.HIGH ? supply : now == Label.SHORT ? supply / 2 : 0;
  }

  /** Loads to both rails and to nothing else: a divider. */
  private double divided(int k) {
    double up = siemensTo(k, Topology.SUPPLY);
    return supply * up / (up + siemensTo(k, Topology.GROUND));
  }

  /** Of all loads from a cluster to a rail together. */
  double siemensTo(int k, int rail) {
    double sum = 0;
    for (int i = first[k]; i < first[k + 1]; i++) {
      int here = node[i];
      for (int l = topology.loadsAt.start()[here]; l < topology.loadsAt.start()[here + 1]; l++) {
        int load = topology.loadsAt.item()[l];
        int there = topology.loadA[load] == here ? topology.loadB[load] : topology.loadA[load];
        sum += there == rail ? topology.siemens[load] : 0;
      }
    }
    return sum;
  }
}
