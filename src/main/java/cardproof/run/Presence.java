package cardproof.run;

import java.util.function.LongSupplier;

/**
 * Whether this program was there all the time. It is looked at many times a second; where it was
 * not for longer than a moment, the program was stopped, the computer asleep, or a disk hung. Two
 * clocks are needed: of a computer that slept the one that counts from its start may know nothing
 * (CLOCK_MONOTONIC of Linux, clock_gettime(2)), and a program that was stopped may find the
 * calendar's set anew. One thread.
 */
public final class Presence {
  /** Longer than a busy machine or a slow disk makes anybody wait. */
  private static final long MOMENT_MS = 700;

  /** An absence that the fixture has not minded by then explains nothing that comes later. */
  private static final long RECENT_NS = 5_000_000_000L;

  private static final long NS_PER_MS = 1_000_000;

  private final LongSupplier nanoTime;
  private final LongSupplier wallMs;
  private long lookedNs;
  private long lookedWallMs;
  private boolean looked;
  private long absenceMs;
  private long backNs;

  public Presence(LongSupplier nanoTime, LongSupplier wallMs) {
    this.nanoTime = nanoTime;
    this.wallMs = wallMs;
  }

  /**
   * Looks at the clocks.
   *
   * @param waitNs how long it may have waited on purpose since the last look
   * @return whether it was away since
   */
  boolean look(long waitNs) {
    long ns = nanoTime.getAsLong();
    long wall = wallMs.getAsLong();
    long gapMs = Math.max((ns - lookedNs) / NS_PER_MS, wall - lookedWallMs) - waitNs / NS_PER_MS;
    boolean away = looked && gapMs > MOMENT_MS;
    if (away) {
      absenceMs = gapMs;
      backNs = ns;
    }
    looked = true;
    lookedNs = ns;
    lookedWallMs = wall;
    return away;
  }

  /** How long it was away, where that was a moment ago; else 0. */
  long absenceMs() {
    return absenceMs > 0 && lookedNs - backNs <= RECENT_NS ? absenceMs : 0;
  }
}
