package cardproof.link.serial;

import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.LongSupplier;

/**
 * Received bytes between the reader thread and the one that uses the wire: a ring of fixed size.
 *
 * <p>A full ring holds the reader up, and through it the driver, rather than dropping bytes here.
 */
final class Inbox {
  private final ReentrantLock lock = new ReentrantLock();
  private final Condition changed = lock.newCondition();
  private final byte[] ring;
  private final LongSupplier clock;
  private final Health health;
  private int first;
  private int count;

  Inbox(int capacity, LongSupplier clock, Health health) {
    this.ring = new byte[capacity];
    this.clock = clock;
    this.health = health;
    health.onFailure(this::wake);
  }

  /** Puts in as many of {@code bytes[from, to)} as fit, waiting up to {@code limitNs} for room. */
  int put(byte[] bytes, int from, int to, long limitNs) {
    lock.lock();
    try {
      if (count == ring.length) {
        Patience.await(changed, limitNs);
      }
      int taken = Math.min(to - from, ring.length - count);
      for (int i = 0; i < taken; i++) {
        ring[(first + count + i) % ring.length] = bytes[from + i];
      }
      count += taken;
      changed.signalAll();
      return taken;
    } finally {
      lock.unlock();
    }
  }

  /**
   * Takes what is there, waiting for it until {@code deadlineNs}; 0 when the deadline passed first.
   * Bytes that came before a failure are still given out; then the failure is thrown.
   */
  int take(byte[] into, long deadlineNs) {
    lock.lock();
    try {
      while (count == 0) {
        health.check();
        long left = deadlineNs - clock.getAsLong();
        if (left <= 0) {
          return 0;
        }
        Patience.await(changed, left);
      }
      int taken = Math.min(into.length, count);
      for (int i = 0; i < taken; i++) {
        into[i] = ring[(first + i) % ring.length];
      }
      first = (first + taken) % ring.length;
      count -= taken;
      changed.signalAll();
      return taken;
    } finally {
      lock.unlock();
    }
  }

  private void wake() {
    lock.lock();
    try {
      changed.signalAll();
    } finally {
      lock.unlock();
    }
  }
}
