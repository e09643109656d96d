package cardproof.run;

import cardproof.link.Wire;
import java.util.Arrays;

/**
 * A host that is too busy to read: whatever comes is only looked at a good while after the first
 * byte of it, all in one go. Beats go on, as they do on a thread of their own.
 */
final class SluggishWire implements Wire {
  private static final int ROOM = 1 << 16;

  private final Wire bench;
  private final long fromNs;
  private final long napNs;
  private final byte[] came = new byte[ROOM];
  private int count;

  /**
   * @param fromNs busy from then on
   */
  SluggishWire(Wire bench, long fromNs, long napNs) {
    this.bench = bench;
    this.fromNs = fromNs;
    this.napNs = napNs;
  }

  @Override
  public String name() {
    return bench.name();
  }

  @Override
  public long nowNs() {
    return bench.nowNs();
  }

  @Override
  public void write(byte[] bytes) {
    bench.write(bytes);
  }

  @Override
  public int read(byte[] into, long deadlineNs) {
    if (take(deadlineNs) && bench.nowNs() >= fromNs) {
      long untilNs = bench.nowNs() + napNs;
      while (bench.nowNs() < untilNs) {
        take(untilNs);
      }
    }
    int given = Math.min(count, into.length);
    System.arraycopy(came, 0, into, 0, given);
    System.arraycopy(came, given, came, 0, count - given);
    count -= given;
    return given;
  }

  private boolean take(long deadlineNs) {
    byte[] more = new byte[ROOM - count];
    int length = bench.read(more, deadlineNs);
    System.arraycopy(Arrays.copyOf(more, length), 0, came, count, length);
    count += length;
    return length > 0;
  }

  @Override
  public void keepAlive(byte[] frame, long periodNs, long untilNs) {
    bench.keepAlive(frame, periodNs, untilNs);
  }

  @Override
  public void close() {
    bench.close();
  }
}
