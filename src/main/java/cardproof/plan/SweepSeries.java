package cardproof.plan;

import java.util.OptionalInt;

/** Trials of one line going one way, by the times that a sweep may try. Not thread safe. */
final class SweepSeries {
  private static final int NONE = -1;

  private final int[] worked;
  private final int[] failed;
  private int trials;
  private int longestFailed = NONE;

  SweepSeries(int count) {
    worked = new int[count];
    failed = new int[count];
  }

  void take(int index, boolean works) {
    trials++;
    if (works) {
      worked[index]++;
    } else {
      failed[index]++;
      longestFailed = Math.max(longestFailed, index);
    }
  }

  /** A trial was taken to have worked, and it had not. */
  void didNotWork(int index) {
    worked[index]--;
    trials--;
    take(index, false);
  }

  int trials() {
    return trials;
  }

  /** The longest time at which it failed, ever; empty where it never did. */
  OptionalInt longestFailed() {
    return longestFailed == NONE ? OptionalInt.empty() : OptionalInt.of(longestFailed);
  }

  /** The shortest time from which on it always worked; empty where it failed at the longest. */
  OptionalInt shortestWorked() {
    return first(longestFailed + 1);
  }

  /** The shortest time at which it worked, be it that a longer one failed. */
  OptionalInt everWorked() {
    return first(0);
  }

  private OptionalInt first(int from) {
    for (int index = from; index < worked.length; index++) {
      if (worked[index] > 0) {
        return OptionalInt.of(index);
      }
    }
    return OptionalInt.empty();
  }

  int workedAt(int index) {
    return worked[index];
  }

  /** Whether its edge lies between two times of which none was tried. */
  boolean isOpen() {
    OptionalInt above = shortestWorked();
    return above.isPresent() && longestFailed != NONE && above.getAsInt() - longestFailed > 1;
  }

  /** Whether a time lies strictly between the two that its edge lies between. */
  boolean wants(int index) {
    return isOpen() && index > longestFailed && index < shortestWorked().getAsInt();
  }

  /** Half way between them. */
  int middle() {
    return (longestFailed + shortestWorked().orElseThrow()) >>> 1;
  }

  int gap() {
    return shortestWorked().orElseThrow() - longestFailed;
  }
}
