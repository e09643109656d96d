package cardproof.sim.circuit;

/** Tells an observer, if there is one, of what is not as it was told before. Not thread safe. */
final class Observation {
  private static final long NANO_PER_MICRO = 1000;
  private static final double MILLI = 1e3;
  private static final long UNTOLD = -1;

  private final LineLevels levels;
  private CircuitObserver observer;
  private NetLevel[] told = {};
  private boolean all;
  private long toldNanoamps;
  private long toldMillivolts;

  Observation(LineLevels levels) {
    this.levels = levels;
  }

  void observe(CircuitObserver who, long nowNs, Nets nets, long nanoamps) {
    observer = who;
    told = new NetLevel[nets.topology.nodeOfNet.length];
    toldMillivolts = UNTOLD;
    tellAll(nowNs, nets);
    tellSupply(nowNs, nets, nanoamps);
  }

  private void tellAll(long nowNs, Nets nets) {
    for (int node = 0; node < nets.topology.nodes; node++) {
      tell(nowNs, nets, node);
    }
    all = false;
  }

  /** The nodes are other ones now, and any of them may stand elsewhere. */
  void rewire() {
    all = true;
  }

  /** Tells of the nodes that the last evaluation changed. */
  void record(long nowNs, Nets nets, long nanoamps) {
    if (observer == null) {
      return;
    }
    if (all) {
      tellAll(nowNs, nets);
    }
    for (int i = 0; i < nets.changedCount; i++) {
      tell(nowNs, nets, nets.changed[i]);
    }
    tellSupply(nowNs, nets, nanoamps);
  }

  private void tell(long nowNs, Nets nets, int node) {
    NetLevel now = nets.label[node] == Label.SHORT ? NetLevel.WEAK : levels.of(nets.volts[node]);
    Rows rows = nets.topology.nets;
    for (int n = rows.start()[node]; n < rows.start()[node + 1]; n++) {
      int net = rows.item()[n];
      if (told[net] != now) {
        told[net] = now;
        observer.net(nowNs, net, now);
      }
    }
  }

  private void tellSupply(long nowNs, Nets nets, long nanoamps) {
    long millivolts = Math.round(nets.supply() * MILLI);
    if (millivolts != toldMillivolts || nanoamps != toldNanoamps) {
      toldMillivolts = millivolts;
      toldNanoamps = nanoamps;
      observer.supply(nowNs, nanoamps / NANO_PER_MICRO, millivolts);
    }
  }
}
