package cardproof.run;

import cardproof.link.Wire;

/** A wire that can be cut: from then on nothing goes either way, and time goes on. */
final class DeadLine implements Wire {
  private final Wire wire;
  private final byte[] nowhere = new byte[4096];
  private boolean dead;

  DeadLine(Wire wire) {
    this.wire = wire;
  }

  void die() {
    dead = true;
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
    if (!dead) {
      wire.write(bytes);
    }
  }

  @Override
  public int read(byte[] into, long deadlineNs) {
    int count = wire.read(dead ? nowhere : into, deadlineNs);
    return dead ? 0 : count;
  }

  @Override
  public void keepAlive(byte[] frame, long periodNs, long untilNs) {
    if (!dead) {
      wire.keepAlive(frame, periodNs, untilNs);
    }
  }

  @Override
  public void close() {
    wire.close();
  }
}
