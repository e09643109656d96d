package cardproof.run;

import cardproof.link.Wire;

/** A bench seen by a host whose clock has a rate of its own; something happens at one moment. */
final class TimedWire implements Wire {
  private final Wire bench;
  private final double rate;
  private final long atNs;
  private Runnable then;

  /**
   * @param rate of the host's clock; 0.97 loses 3 %
   * @param atNs on the bench's clock
   */
  TimedWire(Wire bench, double rate, long atNs, Runnable then) {
    this.bench = bench;
    this.rate = rate;
    this.atNs = atNs;
    this.then = then;
  }

  @Override
  public String name() {
    return bench.name();
  }

  @Override
  public long nowNs() {
    return (long) (bench.nowNs() * rate);
  }

  @Override
  public void write(byte[] bytes) {
    bench.write(bytes);
  }

  @Override
  public int read(byte[] into, long deadlineNs) {
    if (bench.nowNs() >= atNs) {
      then.run();
      then = () -> {};
    }
    return bench.read(into, own(deadlineNs));
  }

  @Override
  public void keepAlive(byte[] frame, long periodNs, long untilNs) {
    bench.keepAlive(frame, periodNs, own(untilNs));
  }

  /** Rounded up, or a wait for a moment would end before it. */
  private long own(long ns) {
    return ns > Long.MAX_VALUE / 2 ? ns : (long) Math.ceil(ns / rate) + 1;
  }

  @Override
  public void close() {
    bench.close();
  }
}
