package cardproof.plan;

import java.util.List;

/** Arithmetic on vector counts that stays at the largest long instead of running over. */
final class Counts {
  private Counts() {}

  static long times(long a, long b) {
    return Math.multiplyHigh(a, b) != 0 || a * b < 0 ? Long.MAX_VALUE : a * b;
  }

  static long sum(List<Step> steps) {
    long sum = 0;
    for (Step step : steps) {
      long count = step.vectorCount();
      sum = sum > Long.MAX_VALUE - count ? Long.MAX_VALUE : sum + count;
    }
    return sum;
  }
}
