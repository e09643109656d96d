package cardproof.timing.stats;

import org.apache.commons.statistics.inference.BinomialTest;

/**
 * Whether two runs of the same vectors passed equally often: Q. McNemar, "Note on the sampling
 * error of the difference between correlated proportions or percentages" (Psychometrika 12, 1947),
 * in its exact form, the sign test of those that changed.
 */
public final class McNemar {
  private McNemar() {}

  /**
   * @param onlyFirst vectors that passed in the first run and not in the second
   * @param onlySecond the other way round
   * @return how likely so uneven a change is by chance, two-sided; 1 where nothing changed
   */
  public static double pValue(int onlyFirst, int onlySecond) {
    int changed = onlyFirst + onlySecond;
    return changed == 0 ? 1 : BinomialTest.withDefaults().test(changed, onlyFirst, 0.5).getPValue();
  }
}
