package cardproof.run;

import cardproof.link.Wire;

/** A wire that can be cut: from then on nothing goes either way, and time goes on. */
final class DeadLine implements Wire {
  private final Wire wire;
  private final byte[] nowhere = new byte[4096];
  private long deadNs = Long.MAX_VALUE;

  DeadLine(Wire wire) {
    this.wire = wire;
  }

  /**
   * @param leftNs {@code Long.MAX_VALUE} for a line that is never cut
   */
  static DeadLine dyingIn(Wire wire, long leftNs) {
    DeadLine line = new DeadLine(wire);
    line.deadNs = leftNs == Long.MAX_VALUE ? leftNs : wire.nowNs() + leftNs;
    return line;
  }

  void die() {
    deadNs = 0;
  }

  private boolean dead() {
    return wire.nowNs() >= deadNs;
  }

  @Override
  public String name() {
    return wire.name();
  }

  @Override
  public long nowNs() {
    return wire.nowNs();
  }

  @Override
  public void write(byte[] bytes) {
    if (!dead()) {
      wire.write(bytes);
    }
  }

  @Override
  public int read(byte[] into, long deadlineNs) {
    boolean dead = dead();
    int count = wire.read(dead ? nowhere : into, deadlineNs);
    return dead ? 0 : count;
  }

  @Override
  public void keepAlive(byte[] frame, long periodNs, long untilNs) {
    if (!dead()) {
      wire.keepAlive(frame, periodNs, Math.min(untilNs, deadNs));
    }
  }

  @Override
  public void close() {
    wire.close();
  }
}
