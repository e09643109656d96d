package cardproof.firmware;

import cardproof.link.Wire;
import java.util.Arrays;

/**
 * The line to a simulated chip in the chip's own time: {@link #read} is what lets it pass, so a
 * slow computer changes nothing, and the same seed gives the same frames. Bytes need no time beyond
 * that of a line of 250,000 baud.
 */
final class LockStepWire implements Wire {
  private static final double NS_PER_CYCLE = 62.5;

  private final ChipBench bench;
  private byte[] toChip = {};
  private byte[] fromChip = {};
  private byte[] beat = {};
  private long beatEveryNs;
  private long beatUntilNs;
  private long wroteNs;
  private long nowNs;

  LockStepWire(ChipBench bench) {
    this.bench = bench;
    go(0); // the chip may have run before
  }

  @Override
  public String name() {
    return "simulated chip";
  }

  @Override
  public long nowNs() {
    return nowNs;
  }

  @Override
  public void write(byte[] bytes) {
    int had = toChip.length;
    toChip = Arrays.copyOf(toChip, had + bytes.length);
    System.arraycopy(bytes, 0, toChip, had, bytes.length);
    wroteNs = nowNs;
  }

  @Override
  public int read(byte[] into, long deadlineNs) {
    while (fromChip.length == 0 && (nowNs < deadlineNs || toChip.length > 0)) {
      long untilNs = Math.min(deadlineNs, beatDueNs());
      go(Math.max(untilNs, nowNs));
      if (nowNs >= beatDueNs()) {
        write(beat);
      }
    }
    int count = Math.min(into.length, fromChip.length);
    System.arraycopy(fromChip, 0, into, 0, count);
    fromChip = Arrays.copyOfRange(fromChip, count, fromChip.length);
    return count;
  }

  private void go(long untilNs) {
    ChipBench.Sent sent = bench.go((long) Math.ceil(untilNs / NS_PER_CYCLE), toChip);
    toChip = new byte[0];
    fromChip = sent.bytes();
    nowNs = Math.max(nowNs, Math.round(sent.cycle() * NS_PER_CYCLE));
  }

  private long beatDueNs() {
    long dueNs = wroteNs + beatEveryNs;
    return beat.length == 0 || dueNs > beatUntilNs ? Long.MAX_VALUE : dueNs;
  }

  @Override
  public void keepAlive(byte[] frame, long periodNs, long untilNs) {
    beat = frame.clone();
    beatEveryNs = periodNs;
    beatUntilNs = untilNs;
  }

  @Override
  public void close() {
    beat = new byte[0];
    if (toChip.length > 0) {
      go(nowNs); // what was said last is put on the line
    }
  }
}
