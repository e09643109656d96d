package cardproof.timing.drift;

import cardproof.timing.stats.Ewma;
import cardproof.timing.stats.TheilSen;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.OptionalDouble;

/**
 * Watches medians over runs with S. W. Roberts' exponentially weighted moving average ("Control
 * chart tests based on geometric moving averages", Technometrics 1, 1959; NIST/SEMATECH e-Handbook
 * 6.3.2.4). Baseline and spread of a line are estimated from ten runs only, and there are many
 * lines: so a small spread is drawn up towards that of the median line, the limit is 4.0 deviations
 * instead of the usual 3 and holds the baseline's own uncertainty, and it has to be passed twice
 * running. With that 26 lines of a sound card give an alarm within 20 runs in fewer than one case
 * of ten, by simulation in the tests. Never a prediction of a relay's life.
 *
 * @param drifts by line and direction, in the order given
 * @param commonUs median of their shifts; empty where there are none
 */
public record DriftWatch(List<Drift> drifts, OptionalDouble commonUs) {
  /** Runs that make the baseline. */
  public static final int BASELINE = 10;

  private static final Ewma MEAN = new Ewma(0.2);
  private static final double LIMIT = 4.0;

  /** A usual sampling period: medians are whole samples, and may all be equal. */
  private static final double LEAST_SPREAD_US = 50;

  private static final double LEAST_US = 1_000;
  private static final double LEAST_SHARE = 0.1;

  public DriftWatch {
    drifts = List.copyOf(drifts);
  }

  /**
   * Watches lines that have more runs than the baseline takes; others are left out.
   *
   * @param all medians by line and direction
   */
  public static DriftWatch of(List<Series> all) {
    List<Series> enough = all.stream().filter(series -> series.points().size() > BASELINE).toList();
    double[] variances = new double[enough.size()];
    for (int i = 0; i < variances.length; i++) {
      variances[i] = variance(enough.get(i));
    }
    double median = median(variances);
    List<Drift> alone = new ArrayList<>();
    for (int i = 0; i < variances.length; i++) {
      alone.add(
          watched(
              enough.get(i),
              Math.sqrt(
                  Math.max(
                      LEAST_SPREAD_US * LEAST_SPREAD_US,
                      Math.max(variances[i], (variances[i] + median) / 2)))));
    }
    if (alone.isEmpty()) {
      return new DriftWatch(List.of(), OptionalDouble.empty());
    }
    double commonUs = median(alone.stream().mapToDouble(Drift::shiftUs).toArray());
    return new DriftWatch(
        alone.stream().map(drift -> judged(drift, ofOthers(drift, alone))).toList(),
        OptionalDouble.of(commonUs));
  }

  /** What all other lines shifted by; nothing where there are none. */
  private static double ofOthers(Drift drift, List<Drift> all) {
    return median(
        all.stream()
            .filter(other -> other.series().line().line() != drift.series().line().line())
            .mapToDouble(Drift::shiftUs)
            .toArray());
  }

  private static double baseline(Series series) {
    return Arrays.stream(series.mediansUs()).limit(BASELINE).average().orElseThrow();
  }

  private static double variance(Series series) {
    double meanUs = baseline(series);
    return Arrays.stream(series.mediansUs())
            .limit(BASELINE)
            .map(us -> (us - meanUs) * (us - meanUs))
            .sum()
        / (BASELINE - 1);
  }

  private static Drift watched(Series series, double spreadUs) {
    double[] mediansUs = series.mediansUs();
    double baselineUs = baseline(series);
    double[] since = Arrays.copyOfRange(mediansUs, BASELINE, mediansUs.length);
    double[] ewmaUs = MEAN.of(baselineUs, since);
    BitSet alarms = alarms(ewmaUs, baselineUs, spreadUs);
    double[] runs = new double[mediansUs.length];
    Arrays.setAll(runs, i -> i);
    return new Drift(
        series,
        baselineUs,
        spreadUs,
        ewmaUs,
        ewmaUs[ewmaUs.length - 1] - baselineUs,
        TheilSen.slope(runs, mediansUs),
        alarms.nextSetBit(0) >= 0,
        alarms.get(ewmaUs.length - 1),
        false);
  }

  /** The runs since the baseline in which the limit is passed, and was in the run before. */
  private static BitSet alarms(double[] ewmaUs, double baselineUs, double spreadUs) {
    double ofBaseline = 1 / Math.sqrt(BASELINE);
    BitSet alarms = new BitSet();
    boolean before = false;
    for (int i = 0; i < ewmaUs.length; i++) {
      double limitUs = LIMIT * spreadUs * Math.hypot(MEAN.spread(i + 1), ofBaseline);
      boolean beyond = Math.abs(ewmaUs[i] - baselineUs) > limitUs;
      alarms.set(i, beyond && before);
      before = beyond;
    }
    return alarms;
  }

  private static Drift judged(Drift drift, double commonUs) {
    double beyondUs = drift.shiftUs() - commonUs;
    boolean slower =
        drift.lasts()
            && drift.shiftUs() > 0
            && drift.slopeUs() > 0
            && beyondUs >= Math.min(LEAST_US, LEAST_SHARE * drift.baselineUs());
    return new Drift(
        drift.series(),
        drift.baselineUs(),
        drift.spreadUs(),
        drift.ewmaUs(),
        drift.shiftUs(),
        drift.slopeUs(),
        drift.alarm(),
        drift.lasts(),
        slower);
  }

  private static double median(double[] values) {
    if (values.length == 0) {
      return 0;
    }
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    int middle = sorted.length / 2;
    return sorted.length % 2 == 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
  }
}
