package cardproof.link.serial;

import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.Condition;

/** Bounded waits that an interrupt does not cut short; the interrupt is kept for the caller. */
final class Patience {
  private Patience() {}

  /** Waits on {@code condition}, whose lock is held, for at most {@code limitNs}. */
  static void await(Condition condition, long limitNs) {
    boolean interrupted = false;
    long start = System.nanoTime();
    long left = limitNs;
    while (left > 0) {
      try {
        condition.awaitNanos(left);
        break;
      } catch (InterruptedException e) {
        interrupted = true;
        left = limitNs - (System.nanoTime() - start);
      }
    }
    if (interrupted) {
      Thread.currentThread().interrupt();
    }
  }

  /** Waits for {@code thread} to end; false when it has not within {@code limitNs}. */
  static boolean join(Thread thread, long limitNs) {
    boolean interrupted = false;
    long start = System.nanoTime();
    long left = limitNs;
    while (left > 0 && thread.isAlive()) {
      try {
        TimeUnit.NANOSECONDS.timedJoin(thread, left);
      } catch (InterruptedException e) {
        interrupted = true;
      }
      left = limitNs - (System.nanoTime() - start);
    }
    if (interrupted) {
      Thread.currentThread().interrupt();
    }
    return !thread.isAlive();
  }
}
