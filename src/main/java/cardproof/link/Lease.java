package cardproof.link;

/** How long beats may still go on without anybody answering for the run. */
final class Lease {
  private final Wire wire;
  private long startNs;
  private long untilNs;

  Lease(Wire wire) {
    this.wire = wire;
    this.startNs = wire.nowNs();
    this.untilNs = startNs;
  }

  void renew(byte[] beat) {
    long nowNs = wire.nowNs();
    if (!runs(nowNs)) {
      startNs = nowNs;
    }
    untilNs = nowNs + LinkTimes.LEASE_NS;
    wire.keepAlive(beat, LinkTimes.BEAT_NS, untilNs);
  }

  /** Changes what is beaten, not how long. */
  void change(byte[] beat) {
    if (runs(wire.nowNs())) {
      wire.keepAlive(beat, LinkTimes.BEAT_NS, untilNs);
    }
  }

  void end(byte[] beat) {
    long nowNs = wire.nowNs();
    if (runs(nowNs)) {
      untilNs = nowNs;
      wire.keepAlive(beat, LinkTimes.BEAT_NS, nowNs);
    }
  }

  boolean runs(long nowNs) {
    return nowNs < untilNs;
  }

  long startNs() {
    return startNs;
  }

  long untilNs() {
    return untilNs;
  }
}
