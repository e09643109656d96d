package cardproof.link.serial;

import java.util.ArrayDeque;

/**
 * What is to be written next, and when: frames in order, and between them the frame that keeps the
 * fixture alive. Holds no thread and no clock; not thread-safe.
 */
final class Outbox {
  /** Returned by {@link #waitNs} when nothing will ever be due unless something is added. */
  static final long FOREVER = Long.MAX_VALUE;

  private final int capacity;
  private final int pieceBytes;
  private final ArrayDeque<byte[]> frames = new ArrayDeque<>();
  private int offset;
  private int pending;
  private byte[] keepAlive = {};
  private long periodNs;
  private long untilNs;
  private long lastWriteNs;

  Outbox(int capacity, int pieceBytes, long nowNs) {
    this.capacity = capacity;
    this.pieceBytes = pieceBytes;
    this.lastWriteNs = nowNs;
  }

  /** Bytes that can be added now. */
  int room() {
    return capacity - pending;
  }

  boolean isEmpty() {
    return pending == 0;
  }

  void add(byte[] bytes) {
    frames.add(bytes);
    pending += bytes.length;
  }

  void keepAlive(byte[] frame, long periodNs, long untilNs) {
    this.keepAlive = frame;
    this.periodNs = periodNs;
    this.untilNs = untilNs;
  }

  /** How long until {@link #next} has something, if nothing is added: 0 for now. */
  long waitNs(long nowNs) {
    if (pending > 0) {
      return 0;
    }
    if (keepAlive.length == 0 || nowNs - untilNs >= 0) {
      return FOREVER;
    }
    long left = periodNs - (nowNs - lastWriteNs);
    return left <= 0 ? 0 : left < untilNs - nowNs ? left : FOREVER;
  }

  /**
   * Copies the next piece into {@code into}, which holds at least a piece; how many bytes, 0 for
   * nothing due. A frame longer than a piece comes in several, with nothing in between. Frames are
   * put together where they fit.
   */
  int next(byte[] into, long nowNs) {
    if (waitNs(nowNs) > 0) {
      return 0;
    }
    if (pending == 0) {
      add(keepAlive);
    }
    int count = 0;
    while (count < pieceBytes && pending > 0) {
      byte[] frame = frames.element();
      int part = Math.min(frame.length - offset, pieceBytes - count);
      System.arraycopy(frame, offset, into, count, part);
      count += part;
      offset += part;
      pending -= part;
      if (offset == frame.length) {
        frames.remove();
        offset = 0;
      }
    }
    lastWriteNs = nowNs;
    return count;
  }
}
