package cardproof.timing.stats;

import java.util.OptionalInt;
import org.apache.commons.statistics.distribution.BetaDistribution;
import org.apache.commons.statistics.distribution.BinomialDistribution;

/**
 * What the largest values of a sample say of all that will come, whatever their distribution: S. S.
 * Wilks, "Determination of sample sizes for setting tolerance limits" (Annals of Mathematical
 * Statistics 12, 1941). It speaks for values drawn as these were, and for no others.
 *
 * <p>Ranks count from the largest value: rank 1 is the largest. Shares and confidences lie strictly
 * between 0 and 1.
 */
public final class OrderBound {
  private OrderBound() {}

  /** How sure it is that the value of this rank among {@code n} is above such a share of all. */
  public static double confidence(int n, int rank, double coverage) {
    check(n, rank);
    return BinomialDistribution.of(n, 1 - coverage).survivalProbability(rank - 1);
  }

  /** The share of all values that the one of this rank is above, as sure as that. */
  public static double coverage(int n, int rank, double confidence) {
    check(n, rank);
    return BetaDistribution.of(n - rank + 1.0, rank).inverseSurvivalProbability(confidence);
  }

  /** The fewest values of which the one of this rank is a bound. */
  public static int smallestCount(int rank, double coverage, double confidence) {
    int tooFew = rank - 1;
    int enough = Math.max(1, rank);
    while (confidence(enough, rank, coverage) < confidence) {
      tooFew = enough;
      enough = Math.multiplyExact(enough, 2);
    }
    while (enough - tooFew > 1) {
      int middle = (enough + tooFew) >>> 1;
      if (confidence(middle, rank, coverage) < confidence) {
        tooFew = middle;
      } else {
        enough = middle;
      }
    }
    return enough;
  }

  /** The rank of the smallest value that still is a bound; empty where the largest is none. */
  public static OptionalInt rank(int n, double coverage, double confidence) {
    int rank = 0;
    while (rank < n && confidence(n, rank + 1, coverage) >= confidence) {
      rank++;
    }
    return rank == 0 ? OptionalInt.empty() : OptionalInt.of(rank);
  }

  private static void check(int n, int rank) {
    if (rank < 1 || rank > n) {
      throw new IllegalArgumentException("rank " + rank + " of " + n);
    }
  }
}
