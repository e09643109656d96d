package cardproof.cli;

import cardproof.sim.WallClock;
import java.util.concurrent.TimeUnit;

/** The computer's own clock. An interrupt ends no wait; it is kept for the caller. */
final class SystemTime implements WallClock {
  @Override
  public long nanoTime() {
    return System.nanoTime();
  }

  @Override
  public void waitUntil(long untilNs) {
    boolean interrupted = false;
    long leftNs = untilNs - nanoTime();
    while (leftNs > 0) {
      try {
        TimeUnit.NANOSECONDS.sleep(leftNs);
      } catch (InterruptedException e) {
        interrupted = true;
      }
      leftNs = untilNs - nanoTime();
    }
    if (interrupted) {
      Thread.currentThread().interrupt();
    }
  }
}
