package cardproof.pty;

import java.util.Random;

/** Simple devices. */
public final class Devices {
  private Devices() {}

  /** Takes everything, says nothing. */
  public static Device silent() {
    return new Device() {
      @Override
      public void receive(byte[] bytes, int count, long nowNs) {}

      @Override
      public long nextDueNs() {
        return NEVER;
      }

      @Override
      public int produce(byte[] into, long nowNs) {
        return 0;
      }
    };
  }

  /** Gives every byte back. */
  public static Device echo() {
    return new Answering(bytes -> bytes, 0);
  }

  /** Says random bytes, {@code count} of them every {@code periodNs}, and takes everything. */
  public static Device garbage(long seed, int count, long periodNs) {
    Random random = new Random(seed);
    return new Device() {
      private long dueNs;

      @Override
      public void receive(byte[] bytes, int count, long nowNs) {}

      @Override
      public long nextDueNs() {
        return dueNs;
      }

      @Override
      public int produce(byte[] into, long nowNs) {
        dueNs += periodNs;
        byte[] some = new byte[Math.min(count, into.length)];
        random.nextBytes(some);
        System.arraycopy(some, 0, into, 0, some.length);
        return some.length;
      }
    };
  }

  /** As {@code device}, but reads nothing more once it has taken {@code count} bytes. */
  public static Device stallingAfter(int count, Device device) {
    return new Device() {
      private int left = count;

      @Override
      public void receive(byte[] bytes, int count, long nowNs) {
        left -= count;
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
        return Math.min(left, device.appetite(nowNs));
      }
    };
  }
}
