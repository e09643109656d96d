package cardproof.timing.stats;

import org.apache.commons.statistics.distribution.BetaDistribution;

/**
 * Bounds of a probability from how often something happened: C. J. Clopper and E. S. Pearson, "The
 * use of confidence or fiducial limits illustrated in the case of the binomial" (Biometrika 26,
 * 1934), as the NIST/SEMATECH e-Handbook has it in 7.2.4.1. The trials must not depend on one
 * another.
 */
public final class Proportion {
  private Proportion() {}

  /** One-sided: the probability is no more than this, as sure as {@code confidence}. */
  public static double upper(int happened, int trials, double confidence) {
    check(happened, trials);
    return happened == trials
        ? 1
        : BetaDistribution.of(happened + 1.0, (double) trials - happened)
            .inverseCumulativeProbability(confidence);
  }

  /** One-sided: the probability is no less than this, as sure as {@code confidence}. */
  public static double lower(int happened, int trials, double confidence) {
    check(happened, trials);
    return happened == 0
        ? 0
        : BetaDistribution.of(happened, trials - happened + 1.0)
            .inverseSurvivalProbability(confidence);
  }

  private static void check(int happened, int trials) {
    if (trials < 1 || happened < 0 || happened > trials) {
      throw new IllegalArgumentException(happened + " of " + trials);
    }
  }
}
