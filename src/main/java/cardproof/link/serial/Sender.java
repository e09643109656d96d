package cardproof.link.serial;

import cardproof.text.Problem;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.LongSupplier;

/**
 * The writing half of a line. One thread sits in {@link #run}, because a driver whose device has
 * stopped reading blocks for good; the methods for others wait for at most {@link #STALL_NS}.
 */
final class Sender implements Runnable {
  /** How long the line may take nothing before it counts as failed. */
  static final long STALL_NS = 1_000_000_000L;

  /**
   * Most that counts between two looks: a program that was frozen, or a computer that slept, learns
   * nothing of the line from the time it missed.
   */
  private static final long LONGEST_LOOK_NS = STALL_NS / 4;

  /** Many frames of the longest kind; a window of queued steps is far smaller. */
  private static final int CAPACITY = 16 * 1024;

  private final ReentrantLock lock = new ReentrantLock();
  private final Condition changed = lock.newCondition();
  private final Outbox outbox;
  private final byte[] piece;
  private final ByteLine line;
  private final LongSupplier clock;
  private final Health health;
  private final PortProblems problems;
  private boolean inDriver;
  private long lookedNs;
  private long stalledNs;
  private boolean stopped;

  Sender(ByteLine line, int pieceBytes, LongSupplier clock, Health health, PortProblems problems) {
    this.line = line;
    this.clock = clock;
    this.health = health;
    this.problems = problems;
    this.piece = new byte[pieceBytes];
    this.outbox = new Outbox(CAPACITY, pieceBytes, clock.getAsLong());
    health.onFailure(this::wake);
  }

  /** Queues a copy of {@code bytes}; waits only while the queue is full and the line is moving. */
  void write(byte[] bytes) {
    lock.lock();
    try {
      int done = 0;
      while (done < bytes.length) {
        health.check();
        int part = Math.min(bytes.length - done, outbox.room());
        if (part > 0) {
          byte[] copy = new byte[part];
          System.arraycopy(bytes, done, copy, 0, part);
          outbox.add(copy);
          done += part;
          changed.signalAll();
        } else {
          awaitProgress();
        }
      }
      health.check();
    } finally {
      lock.unlock();
    }
  }

  void keepAlive(byte[] frame, long periodNs, long untilNs) {
    lock.lock();
    try {
      health.check();
      outbox.keepAlive(frame.clone(), periodNs, untilNs);
      changed.signalAll();
    } finally {
      lock.unlock();
    }
  }

  /** Waits until the driver has everything, for at most {@code limitNs}. */
  boolean drain(long limitNs) {
    long deadlineNs = clock.getAsLong() + limitNs;
    lock.lock();
    try {
      outbox.keepAlive(new byte[0], 0, 0);
      long left = limitNs;
      while (left > 0 && !health.failed() && (inDriver || !outbox.isEmpty())) {
        Patience.await(changed, left);
        left = deadlineNs - clock.getAsLong();
      }
      return !inDriver && outbox.isEmpty();
    } finally {
      lock.unlock();
    }
  }

  /**
   * Fails the line when the driver has taken nothing for {@link #STALL_NS}, as far as this program
   * was there to see it. To be called often.
   */
  void checkStall() {
    lock.lock();
    try {
      if (!inDriver) {
        return;
      }
      long nowNs = clock.getAsLong();
      stalledNs += Math.min(nowNs - lookedNs, LONGEST_LOOK_NS);
      lookedNs = nowNs;
      if (stalledNs >= STALL_NS) {
        health.fail(problems.stalled(STALL_NS / 1_000_000));
      }
    } finally {
      lock.unlock();
    }
  }

  void stop() {
    lock.lock();
    try {
      stopped = true;
      changed.signalAll();
    } finally {
      lock.unlock();
    }
  }

  @Override
  public void run() {
    int count = await();
    while (count > 0) {
      int taken = line.write(piece, count);
      if (!report(taken, count)) {
        return;
      }
      count = await();
    }
  }

  /** The next piece, or 0 when the line has ended. */
  private int await() {
    lock.lock();
    try {
      while (!stopped && !health.failed()) {
        long nowNs = clock.getAsLong();
        int count = outbox.next(piece, nowNs);
        if (count > 0) {
          inDriver = true;
          lookedNs = nowNs;
          stalledNs = 0;
          return count;
        }
        Patience.await(changed, outbox.waitNs(nowNs));
      }
      return 0;
    } finally {
      lock.unlock();
    }
  }

  private boolean report(int taken, int count) {
    lock.lock();
    try {
      inDriver = false;
      changed.signalAll();
      if (stopped) {
        return false;
      }
      if (taken < count) {
        Problem lost = problems.lost("it took " + Math.max(0, taken) + " of " + count + " bytes");
        health.fail(lost);
        return false;
      }
      return true;
    } finally {
      lock.unlock();
    }
  }

  private void awaitProgress() {
    Patience.await(changed, LONGEST_LOOK_NS);
    checkStall();
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
