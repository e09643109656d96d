package cardproof.sim.circuit;

/**
 * What the current of a coil that was switched off finds to flow on through: from the end that was
 * low, back to the end that was high, through closed contacts, forward diodes, or a resistance
 * across the coil. The rails are ends here, never passed through. Coils across it do not help: they
 * have a current of their own that wants the same way. Not thread safe.
 */
final class Suppression {
  private Topology topology;
  private int[] stamp;
  private int[] queue;
  private int now;

  Suppression(Topology topology) {
    rewire(topology);
  }

  void rewire(Topology other) {
    topology = other;
    stamp = new int[other.nodes];
    queue = new int[other.nodes];
    now = 0;
  }

  /**
   * @return 0 for contacts and diodes alone; infinite for nothing
   */
  double ohms(int load, boolean firstEndWasHigh, boolean[] closed, boolean[] isCoil) {
    int high = firstEndWasHigh ? topology.loadA[load] : topology.loadB[load];
    int low = topology.otherEnd(load, high);
    if (high == low) {
      return 0;
    }
    now++;
    int size = 0;
    stamp[high] = now;
    queue[size++] = high;
    double siemens = 0;
    for (int at = 0; at < size; at++) {
      int here = queue[at];
      if (here < Topology.FIRST_NODE && here != high) {
        continue;
      }
      size = acrossSwitches(here, closed, size);
      size = againstDiodes(here, size);
      if (stamp[low] == now) {
        return 0;
      }
      siemens += across(here, low, isCoil);
    }
    return siemens == 0 ? Double.POSITIVE_INFINITY : 1 / siemens;
  }

  private int acrossSwitches(int here, boolean[] closed, int size) {
    if (here < Topology.FIRST_NODE) {
      return size;
    }
    int end = size;
    Rows rows = topology.switchesAt;
    for (int i = rows.start()[here]; i < rows.start()[here + 1]; i++) {
      if (closed[rows.item()[i]] && stamp[topology.beyond[i]] != now) {
        stamp[topology.beyond[i]] = now;
        queue[end++] = topology.beyond[i];
      }
    }
    return end;
  }

  private int againstDiodes(int here, int size) {
    int end = size;
    Rows rows = topology.allDiodesAt;
    for (int i = rows.start()[here]; i < rows.start()[here + 1]; i++) {
      int diode = rows.item()[i];
      int anode = topology.anode[diode];
      if (topology.cathode[diode] == here && stamp[anode] != now) {
        stamp[anode] = now;
        queue[end++] = anode;
      }
    }
    return end;
  }

  private double across(int here, int low, boolean[] isCoil) {
    double sum = 0;
    Rows rows = topology.loadsAt;
    for (int i = rows.start()[here]; i < rows.start()[here + 1]; i++) {
      int load = rows.item()[i];
      sum += !isCoil[load] && topology.otherEnd(load, here) == low ? topology.siemens[load] : 0;
    }
    return sum;
  }
}
