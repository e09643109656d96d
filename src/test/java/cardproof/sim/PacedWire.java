package cardproof.sim;

import cardproof.link.Wire;

/** Joins a host to a {@link PacedFixture} as a real-time loop would, on a clock that jumps. */
final class PacedWire implements Wire {
  private final PacedFixture fixture;
  private long nowNs;

  PacedWire(PacedFixture fixture, long nowNs) {
    this.fixture = fixture;
    this.nowNs = nowNs;
  }

  @Override
  public String name() {
    return "paced";
  }

  @Override
  public long nowNs() {
    return nowNs;
  }

  @Override
  public void write(byte[] bytes) {
    fixture.receive(bytes, bytes.length, nowNs);
  }

  @Override
  public int read(byte[] into, long deadlineNs) {
    int count = fixture.produce(into, nowNs);
    while (count == 0 && nowNs < deadlineNs) {
      nowNs = Math.min(deadlineNs, Math.max(nowNs, fixture.nextDueNs()));
      count = fixture.produce(into, nowNs);
    }
    return count;
  }

  @Override
  public void keepAlive(byte[] frame, long periodNs, long untilNs) {
    throw new UnsupportedOperationException("no test asks for it");
  }

  @Override
  public void close() {
    // holds nothing
  }
}
