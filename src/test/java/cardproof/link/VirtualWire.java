package cardproof.link;

import cardproof.sim.line.Direction;
import cardproof.sim.line.LineFault;
import java.util.List;
import java.util.function.Function;

/** A wire to a {@link Device} in virtual time: time passes in {@link #read} only. */
final class VirtualWire implements Wire {
  /** The other end. */
  interface Device {
    void receive(byte[] bytes, long nowNs);

    /** When it has something to do by itself. */
    long nextNs();

    void tick(long nowNs);
  }

  final Strand toDevice;
  final Strand toHost;
  private final Device device;
  private long nowNs = 1_000_000_000;
  private byte[] beat = {};
  private long periodNs = Long.MAX_VALUE;
  private long untilNs;
  private long wroteNs;
  private long beats;
  private long reads;

  VirtualWire(long seed, Function<Strand, Device> device) {
    this.toDevice = new Strand(Direction.TO_FIXTURE, seed);
    this.toHost = new Strand(Direction.TO_HOST, seed);
    this.device = device.apply(toHost);
  }

  void faults(List<LineFault> faults) {
    toDevice.faults(faults);
    toHost.faults(faults);
  }

  void cut() {
    toDevice.cut();
    toHost.cut();
  }

  long beats() {
    return beats;
  }

  long reads() {
    return reads;
  }

  /** Lets time pass while the host does something else; what arrives waits to be read. */
  void pass(long ns) {
    long endNs = nowNs + ns;
    while (nextNs(false) <= endNs) {
      nowNs = Math.max(nowNs, nextNs(false));
      step();
    }
    nowNs = endNs;
  }

  @Override
  public String name() {
    return "virtual wire";
  }

  @Override
  public long nowNs() {
    return nowNs;
  }

  @Override
  public void write(byte[] bytes) {
    wroteNs = nowNs;
    toDevice.write(bytes, nowNs);
  }

  @Override
  public int read(byte[] into, long deadlineNs) {
    reads++;
    for (; ; ) {
      byte[] bytes = toHost.take(nowNs);
      if (bytes.length > 0) {
        System.arraycopy(bytes, 0, into, 0, bytes.length);
        return bytes.length;
      }
      long nextNs = nextNs(true);
      if (nextNs > Math.max(deadlineNs, nowNs)) {
        nowNs = Math.max(nowNs, deadlineNs);
        return 0;
      }
      nowNs = Math.max(nowNs, nextNs);
      step();
    }
  }

  @Override
  public void keepAlive(byte[] frame, long everyNs, long endNs) {
    beat = frame;
    periodNs = everyNs;
    untilNs = endNs;
  }

  @Override
  public void close() {
    // nothing to release
  }

  private void step() {
    for (byte[] bytes = toDevice.take(nowNs); bytes.length > 0; bytes = toDevice.take(nowNs)) {
      device.receive(bytes, nowNs);
    }
    if (device.nextNs() <= nowNs) {
      device.tick(nowNs);
    }
    if (beatNs() <= nowNs) {
      beats++;
      write(beat);
    }
  }

  private long nextNs(boolean withArrivals) {
    long own = Math.min(Math.min(toDevice.nextNs(), device.nextNs()), beatNs());
    return withArrivals ? Math.min(own, toHost.nextNs()) : own;
  }

  private long beatNs() {
    long dueNs = beat.length == 0 ? Long.MAX_VALUE : wroteNs + periodNs;
    return dueNs < untilNs ? dueNs : Long.MAX_VALUE;
  }
}
