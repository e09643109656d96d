package cardproof.pty;

import java.nio.charset.StandardCharsets;
import java.util.Random;
import java.util.function.Supplier;

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
    return talking(
        () -> {
          byte[] some = new byte[count];
          random.nextBytes(some);
          return some;
        },
        periodNs);
  }

  /** Says a line of text every {@code periodNs}, as many boards do, and takes everything. */
  public static Device text(String line, long periodNs) {
    byte[] bytes = (line + "\r\n").getBytes(StandardCharsets.US_ASCII);
    return talking(() -> bytes, periodNs);
  }

  private static Device talking(Supplier<byte[]> next, long periodNs) {
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
        byte[] some = next.get();
        int count = Math.min(some.length, into.length);
        System.arraycopy(some, 0, into, 0, count);
        return count;
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
