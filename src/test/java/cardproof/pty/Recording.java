package cardproof.pty;

import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** Keeps what a device was sent and when, for a test to wait on; otherwise as that device. */
public final class Recording implements Device {
  /** Bytes that came together; time as the device counts it. */
  public record Arrival(long atNs, byte[] bytes) {}

  private final Device device;
  private final List<Arrival> arrivals = new ArrayList<>();

  public Recording(Device device) {
    this.device = device;
  }

  @Override
  public synchronized void receive(byte[] bytes, int count, long nowNs) {
    byte[] copy = new byte[count];
    System.arraycopy(bytes, 0, copy, 0, count);
    arrivals.add(new Arrival(nowNs, copy));
    notifyAll();
    device.receive(bytes, count, nowNs);
  }

  @Override
  public long nextDueNs() {
    return device.nextDueNs();
  }

  @Override
  public int produce(byte[] into, long nowNs) {
    return device.produce(into, nowNs);
  }

  @Override
  public int appetite(long nowNs) {
    return device.appetite(nowNs);
  }

  public synchronized List<Arrival> arrivals() {
    return List.copyOf(arrivals);
  }

  /** All bytes so far, once there are {@code count} or {@code limitMs} have passed. */
  public synchronized byte[] await(int count, long limitMs) throws InterruptedException {
    long deadlineNs = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(limitMs);
    long leftNs = deadlineNs - System.nanoTime();
    while (bytes().length < count && leftNs > 0) {
      TimeUnit.NANOSECONDS.timedWait(this, leftNs);
      leftNs = deadlineNs - System.nanoTime();
    }
    return bytes();
  }

  private byte[] bytes() {
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    arrivals.forEach(arrival -> all.writeBytes(arrival.bytes()));
    return all.toByteArray();
  }
}
