package cardproof.sim.circuit;

import cardproof.card.wiring.Relay;
import cardproof.card.wiring.RelayType;
import java.util.Arrays;
import java.util.List;

/**
 * What flows through each load, the supply current that makes, and which coils that energises. The
 * supply current is what leaves the nodes that are fed by it, so loads in series count once. Sums
 * are whole nanoamperes, so that they never drift. Not thread safe.
 */
final class Loads {
  /** So near to a threshold, as a part of the rated voltage, a real coil might do either. */
  static final double NEAR = 0.05;

  private static final double NEAR_RELEASE = 0.03;
  private static final double NANO = 1e9;
  private static final double SLACK = 1e-9;

  private final int[] relayOf;
  private final double[] ratedVolts;
  private final double[] operatePart;
  private final double[] releasePart;
  private final int[] loadOfRelay;
  private final long[] nanoamps;
  private final long[] backNanoamps;
  private final boolean[] energised;
  private final boolean[] firstEndHigh;
  private final boolean[] uncertain;
  private final boolean[] marked;
  private final int[] dirty;
  private int dirtyCount;
  private long total;
  private long uncertainCount;

  /** Relays whose coil was switched in the last {@link #judge}. */
  final int[] turned;

  int turnedCount;

  Loads(Elements parts) {
    List<Relay> relays = parts.relays;
    int count = parts.loads.size();
    relayOf = parts.loads.stream().mapToInt(Elements.Load::relay).toArray();
    ratedVolts = relays.stream().mapToDouble(r -> r.type().coilMillivolts() / 1e3).toArray();
    operatePart = parts(relays, true);
    releasePart = parts(relays, false);
    loadOfRelay = new int[relays.size()];
    Arrays.fill(loadOfRelay, -1);
    for (int load = 0; load < count; load++) {
      if (relayOf[load] != Elements.NO_COIL) {
        loadOfRelay[relayOf[load]] = load;
      }
    }
    nanoamps = new long[count];
    backNanoamps = new long[parts.diodes.size()];
    energised = new boolean[relays.size()];
    firstEndHigh = new boolean[relays.size()];
    uncertain = new boolean[relays.size()];
    turned = new int[relays.size()];
    marked = new boolean[count];
    dirty = new int[count];
  }

  private static double[] parts(List<Relay> relays, boolean operate) {
    return relays.stream()
        .map(Relay::type)
        .mapToDouble((RelayType t) -> (operate ? t.operatePercent() : t.releasePercent()) / 100.0)
        .toArray();
  }

  /** What one load takes out of the supply, in nanoamperes. */
  long of(int load) {
    return nanoamps[load];
  }

  /** Nanoamperes out of the supply. */
  long total() {
    return total;
  }

  /** How often a coil came so near to a threshold that a real one might do either. */
  long uncertainCount() {
    return uncertainCount;
  }

  boolean isEnergised(int relay) {
    return energised[relay];
  }

  /** The load that a relay's coil is, or below 0 where it is not wired. */
  int loadOf(int relay) {
    return loadOfRelay[relay];
  }

  /** Which end of its coil stood higher when it was last energised. */
  boolean wasFirstEndHigh(int relay) {
    return firstEndHigh[relay];
  }

  /** Everything is to be looked at again, the wiring having changed. */
  void startOver(Nets nets) {
    for (int load = 0; load < nanoamps.length; load++) {
      touch(load, nets);
    }
    for (int node = Topology.FIRST_NODE; node < nets.topology.nodes; node++) {
      backThroughDiodes(node, nets);
    }
  }

  /** Takes in the nodes that the last evaluation changed. */
  void update(Nets nets) {
    Rows rows = nets.topology.loadsAt;
    for (int i = 0; i < nets.changedCount; i++) {
      int node = nets.changed[i];
      for (int l = rows.start()[node], end = rows.start()[node + 1]; l < end; l++) {
        touch(rows.item()[l], nets);
      }
      if ((nets.topology.flags[node] & Topology.DIODE) != 0) {
        backThroughDiodes(node, nets);
      }
    }
  }

  /** What flowed out through a load and comes back through a diode has not left the supply. */
  private void backThroughDiodes(int node, Nets nets) {
    Rows rows = nets.topology.diodesAt;
    for (int d = rows.start()[node], end = rows.start()[node + 1]; d < end; d++) {
      int diode = rows.item()[d];
      int a = nets.topology.anode[diode];
      int c = nets.topology.cathode[diode];
      double over = nets.volts[a] - nets.volts[c] - DiodeModel.VOLTS;
      long now = 0;
      if (over > 0 && Label.fed(nets.label[c]) && !Label.fed(nets.label[a])) {
        now = -Math.round(NANO * over / DiodeModel.OHMS);
      }
      total += now - backNanoamps[diode];
      backNanoamps[diode] = now;
    }
  }

  private void touch(int load, Nets nets) {
    int a = nets.topology.loadA[load];
    int b = nets.topology.loadB[load];
    boolean fedA = Label.fed(nets.label[a]);
    boolean fedB = Label.fed(nets.label[b]);
    long now = 0;
    if (fedA != fedB) {
      double amps = (nets.volts[a] - nets.volts[b]) * nets.topology.siemens[load];
      now = Math.round(NANO * (fedA ? amps : -amps));
    }
    total += now - nanoamps[load];
    nanoamps[load] = now;
    if (relayOf[load] != Elements.NO_COIL && !marked[load]) {
      marked[load] = true;
      dirty[dirtyCount++] = load;
    }
  }

  /** Switches every coil that the levels, now final, ask for. */
  void judge(Nets nets) {
    turnedCount = 0;
    for (int i = 0; i < dirtyCount; i++) {
      marked[dirty[i]] = false;
      judge(dirty[i], nets);
    }
    dirtyCount = 0;
  }

  private void judge(int load, Nets nets) {
    int relay = relayOf[load];
    double across = nets.volts[nets.topology.loadA[load]] - nets.volts[nets.topology.loadB[load]];
    double part = Math.abs(across) / ratedVolts[relay];
    double operate = operatePart[relay];
    double release = releasePart[relay];
    boolean on = energised[relay] ? part > release - SLACK : part > operate - SLACK;
    boolean near =
        Math.abs(part - operate) < NEAR
            || part > NEAR_RELEASE && Math.abs(part - release) < NEAR_RELEASE;
    if (near && !uncertain[relay]) {
      uncertainCount++;
    }
    uncertain[relay] = near;
    if (on && across != 0) {
      firstEndHigh[relay] = across > 0;
    }
    if (on != energised[relay]) {
      energised[relay] = on;
      turned[turnedCount++] = relay;
    }
  }
}
