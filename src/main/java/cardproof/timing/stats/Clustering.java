package cardproof.timing.stats;

import java.util.TreeSet;
import java.util.random.RandomGenerator;

/**
 * Whether failures among trials in a row come in bunches: the sum of squares of the gaps between
 * them, held against the same number of failures laid among the trials by chance (a permutation
 * test; R. A. Fisher, "The Design of Experiments", 1935). Fewer than five failures tell nothing.
 */
public final class Clustering {
  /** From so many failures on there is something to tell; our judgement. */
  public static final int LEAST_FAILURES = 5;

  private Clustering() {}

  /**
   * @param failures numbers of the trials that failed, rising, from 0
   * @param trials how many there were
   * @param draws how many arrangements to draw
   * @return how likely gaps so uneven are by chance, the one seen counted among the draws; 1 where
   *     there are too few failures
   */
  public static double pValue(long[] failures, long trials, int draws, RandomGenerator random) {
    if (failures.length < LEAST_FAILURES) {
      return 1;
    }
    double seen = unevenness(failures, trials);
    int asUneven = 1;
    long[] drawn = new long[failures.length];
    for (int draw = 0; draw < draws; draw++) {
      draw(drawn, trials, random);
      if (unevenness(drawn, trials) >= seen) {
        asUneven++;
      }
    }
    return asUneven / (draws + 1.0);
  }

  /** R. W. Floyd's way to draw different numbers, then sorted. */
  private static void draw(long[] into, long trials, RandomGenerator random) {
    TreeSet<Long> chosen = new TreeSet<>();
    for (long most = trials - into.length; most < trials; most++) {
      long number = random.nextLong(most + 1);
      if (!chosen.add(number)) {
        chosen.add(most);
      }
    }
    int i = 0;
    for (long number : chosen) {
      into[i++] = number;
    }
  }

  private static double unevenness(long[] failures, long trials) {
    double sum = 0;
    long before = -1;
    for (long failure : failures) {
      sum += (double) (failure - before) * (failure - before);
      before = failure;
    }
    return sum + (double) (trials - before) * (trials - before);
  }
}
