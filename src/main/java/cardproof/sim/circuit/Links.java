package cardproof.sim.circuit;

/**
 * What leads from one cluster of a group to another without a switch: diodes one way, loads both
 * ways. Filled anew for each evaluation.
 */
final class Links {
  final int[] from;
  final int[] to;
  final boolean[] diode;
  int count;

  private final Topology topology;
  private final Clusters clusters;

  Links(Topology topology, Clusters clusters) {
    this.topology = topology;
    this.clusters = clusters;
    int most = topology.anode.length + topology.loadA.length;
    this.from = new int[most];
    this.to = new int[most];
    this.diode = new boolean[most];
  }

  /** Takes in the diodes and loads between the clusters that are there now. */
  void fill() {
    count = 0;
    for (int k = 0; k < clusters.count; k++) {
      if ((clusters.flags[k] & (Topology.DIODE | Topology.LOAD_TO_NODE)) != 0) {
        addOf(k);
      }
    }
  }

  private void addOf(int k) {
    for (int i = clusters.first[k]; i < clusters.first[k + 1]; i++) {
      int node = clusters.node[i];
      int flags = topology.flags[node];
      if ((flags & Topology.DIODE) != 0) {
        Rows rows = topology.diodesAt;
        for (int d = rows.start()[node]; d < rows.start()[node + 1]; d++) {
          addOnce(
              k, topology.cathode[rows.item()[d]], topology.anode[rows.item()[d]] == node, true);
        }
      }
      if ((flags & Topology.LOAD_TO_NODE) != 0) {
        Rows rows = topology.loadsAt;
        for (int l = rows.start()[node]; l < rows.start()[node + 1]; l++) {
          addOnce(k, topology.loadB[rows.item()[l]], topology.loadA[rows.item()[l]] == node, false);
        }
      }
    }
  }

  /** Each is met at both of its ends, and taken at the first. */
  private void addOnce(int k, int there, boolean here, boolean isDiode) {
    int other = here && there >= Topology.FIRST_NODE ? clusters.of(there) : -1;
    if (other >= 0 && other != k) {
      from[count] = k;
      to[count] = other;
      diode[count++] = isDiode;
    }
  }

  /** Counts, from each source on, how many diodes away every cluster is; at most {@code most}. */
  void diodesAway(int[] away, int most, boolean forward) {
    for (boolean more = true; more; ) {
      more = false;
      for (int i = 0; i < count; i++) {
        int source = forward ? from[i] : to[i];
        int sink = forward ? to[i] : from[i];
        if (diode[i] && away[source] < most && away[source] + 1 < away[sink]) {
          away[sink] = away[source] + 1;
          more = true;
        }
      }
    }
  }

  /** Spreads a mark forward, or backward, over diodes, and both ways over loads. */
  void spread(boolean[] mark, boolean forward, byte[] label) {
    for (boolean more = true; more; ) {
      more = false;
      for (int i = 0; i < count; i++) {
        int source = forward ? from[i] : to[i];
        int sink = forward ? to[i] : from[i];
        more |= pass(mark, source, sink, label);
        more |= !diode[i] && pass(mark, sink, source, label);
      }
    }
  }

  /** Spreads a mark over loads alone, both ways. */
  void spreadOverLoads(boolean[] mark, byte[] label) {
    for (boolean more = true; more; ) {
      more = false;
      for (int i = 0; i < count; i++) {
        more |= !diode[i] && pass(mark, from[i], to[i], label);
        more |= !diode[i] && pass(mark, to[i], from[i], label);
      }
    }
  }

  private static boolean pass(boolean[] mark, int source, int sink, byte[] label) {
    if (!mark[source] || mark[sink] || Label.solid(label[source]) || Label.solid(label[sink])) {
      return false;
    }
    mark[sink] = true;
    return true;
  }
}
