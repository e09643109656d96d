package cardproof.pty;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.function.Predicate;

/**
 * What a board in another process has done so far, by its own word, which outlives it. Times are
 * those of {@code System.nanoTime} here. Any thread may ask.
 */
public final class Journal {
  /**
   * The drives were switched.
   *
   * @param on how many are on from then on
   */
  public record Switched(long atNs, int on) {}

  private final List<Switched> switched = new ArrayList<>();
  private long firstStopNs = Long.MAX_VALUE;
  private int sessions;
  private int acked;
  private int ended;

  /** Takes a line of {@link JournalWriter}. */
  public synchronized void take(String line) {
    String[] words = line.split(" ");
    int figure = Integer.parseInt(words[2]);
    switch (words[0]) {
      case JournalWriter.DRIVES -> switched.add(new Switched(Long.parseLong(words[1]), figure));
      case JournalWriter.ACKED -> acked = Math.max(acked, figure);
      case JournalWriter.STOP -> firstStopNs = Math.min(firstStopNs, Long.parseLong(words[1]));
      case JournalWriter.OPENED -> {
        sessions++;
        acked = 0;
        ended = 0;
      }
      case JournalWriter.ENDED -> ended = Math.max(ended, figure + 1);
      default -> throw new IllegalArgumentException(line);
    }
    notifyAll();
  }

  /** When a host first said STOP; in the far future where none has. */
  public synchronized long firstStopNs() {
    return firstStopNs;
  }

  /** Every time that the drives were switched, in order. */
  public synchronized List<Switched> switched() {
    return List.copyOf(switched);
  }

  /** How many sessions were asked for. */
  public synchronized int sessions() {
    return sessions;
  }

  /** Steps of this session below this number were acknowledged to the board. */
  public synchronized int acked() {
    return acked;
  }

  /** Steps of this session below this number have ended. */
  public synchronized int ended() {
    return ended;
  }

  public synchronized boolean live() {
    return !switched.isEmpty() && last().on() > 0;
  }

  /** The last time that the drives were switched. */
  public synchronized Switched last() {
    return switched.get(switched.size() - 1);
  }

  /**
   * Waits until it holds.
   *
   * @throws IllegalStateException when it does not within {@code limitMs}; says how things are
   */
  public synchronized void await(String what, Predicate<Journal> holds, long limitMs)
      throws InterruptedException {
    long deadlineNs = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(limitMs);
    while (!holds.test(this)) {
      long leftNs = deadlineNs - System.nanoTime();
      if (leftNs <= 0) {
        throw new IllegalStateException("not within " + limitMs + " ms: " + what + "; " + this);
      }
      TimeUnit.NANOSECONDS.timedWait(this, leftNs);
    }
  }

  @Override
  public synchronized String toString() {
    return ended + " steps ended, " + acked + " acknowledged, drives " + switched;
  }
}
