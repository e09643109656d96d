package cardproof.timing.stats;

import org.apache.commons.statistics.distribution.NormalDistribution;

/** The distribution of Wilcoxon's signed rank sum when signs are by chance and no ranks tie. */
final class SignedRanks {
  /** Above this the normal distribution serves: the sum's own is then no more than 1 rank off. */
  private static final int MOST_EXACT = 60;

  private SignedRanks() {}

  /**
   * The largest sum {@code k} such that a sum below it comes with no more than this probability, 0
   * where none does. The k-th Walsh average from either end then bounds the median of n
   * differences.
   */
  static long criticalSum(int n, double probability) {
    return n <= MOST_EXACT ? exact(n, probability) : normal(n, probability);
  }

  private static long exact(int n, double probability) {
    double[] share = new double[n * (n + 1) / 2 + 1];
    share[0] = 1;
    int most = 0;
    for (int rank = 1; rank <= n; rank++) {
      most += rank;
      for (int sum = most; sum >= 0; sum--) {
        share[sum] = (share[sum] + (sum >= rank ? share[sum - rank] : 0)) / 2;
      }
    }
    double below = 0;
    int sum = 0;
    while (below + share[sum] <= probability) {
      below += share[sum];
      sum++;
    }
    return sum;
  }

  private static long normal(int n, double probability) {
    double mean = n * (n + 1.0) / 4;
    double deviation = Math.sqrt(n * (n + 1.0) * (2.0 * n + 1) / 24);
    double z = NormalDistribution.of(0, 1).inverseSurvivalProbability(probability);
    return (long) Math.max(0, Math.floor(mean - z * deviation));
  }
}
