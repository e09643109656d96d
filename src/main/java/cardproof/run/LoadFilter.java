package cardproof.run;

import java.util.Arrays;

/**
 * What is known of each load of a card, from the currents measured so far: a linear Gaussian model
 * kept up to date measurement by measurement (Kalman, 1960).
 *
 * <p>A load that should take {@code x} takes {@code x (1 + u + e)}: {@code u} is what all of its
 * kind have in common (temperature of the copper, the gain of the meter) and wanders slowly, {@code
 * e} is its own. Beside that the meter has an offset. All are 0 at first, give or take their
 * spreads.
 *
 * <p>That a load is not there is the hypothesis that its own {@code e} is about -1. How many times
 * better that explains all measurements than a sound card does is a ratio of likelihoods, which
 * this model gives without being run again: with prior spread {@code s}, and {@code m} and {@code
 * P} known now, its logarithm is {@code -m/s^2 - (s^2 - P)/(2 s^4)}. On a sound card such a ratio
 * comes to {@code r} at any time of a run with a probability of at most {@code 1/r} (Ville, 1939).
 */
final class LoadFilter {
  /** Even spread over 10 % either way, the tolerance of coils in data sheets. */
  static final double OWN = 0.1 / Math.sqrt(3);

  private static final double COMMON = 0.1;
  private static final double OFFSET_MA = 5;
  private static final double WANDER = 0.001;
  private static final double GAIN_NOISE = 0.001;
  private static final int OFFSET = 0;
  private static final int FIRST_KIND = 1;
  private static final int KINDS = RestLoad.Kind.values().length;
  private static final int FIRST_LOAD = FIRST_KIND + KINDS;

  private final int[] kindOf;
  private final double noiseMa;
  private final int size;
  private final double[] mean;
  private final double[][] spread;
  private final double[] weight;
  private final double[] lean;
  private double expectedMa;
  private double variance;

  /**
   * @param kindOf ordinal of its kind, by load
   * @param noiseMa standard deviation of one measurement
   */
  LoadFilter(int[] kindOf, double noiseMa) {
    this.kindOf = kindOf.clone();
    this.noiseMa = noiseMa;
    size = FIRST_LOAD + kindOf.length;
    mean = new double[size];
    spread = new double[size][size];
    weight = new double[size];
    lean = new double[size];
    spread[OFFSET][OFFSET] = OFFSET_MA * OFFSET_MA;
    for (int k = 0; k < KINDS; k++) {
      spread[FIRST_KIND + k][FIRST_KIND + k] = COMMON * COMMON;
    }
    for (int i = FIRST_LOAD; i < size; i++) {
      spread[i][i] = OWN * OWN;
    }
  }

  /** Says what a measurement should come to with these currents by load, in milliamps. */
  void predict(double[] takes) {
    Arrays.fill(weight, 0);
    weight[OFFSET] = 1;
    double nominal = 0;
    for (int i = 0; i < takes.length; i++) {
      nominal += takes[i];
      weight[FIRST_KIND + kindOf[i]] += takes[i];
      weight[FIRST_LOAD + i] = takes[i];
    }
    expectedMa = nominal;
    variance = noiseMa * noiseMa + GAIN_NOISE * GAIN_NOISE * nominal * nominal;
    for (int r = 0; r < size; r++) {
      lean[r] = 0;
      for (int c = 0; c < size; c++) {
        lean[r] += spread[r][c] * weight[c];
      }
      expectedMa += weight[r] * mean[r];
    }
    for (int r = 0; r < size; r++) {
      variance += weight[r] * lean[r];
    }
  }

  /** What the last prediction came to. */
  double expectedMa() {
    return expectedMa;
  }

  /** How far a sound card may lie from it: one standard deviation. */
  double deviationMa() {
    return Math.sqrt(variance);
  }

  /** Takes in what was measured of what was predicted last. */
  void learn(double milliamps) {
    double innovation = milliamps - expectedMa;
    for (int r = 0; r < size; r++) {
      double part = lean[r] / variance;
      mean[r] += part * innovation;
      for (int c = 0; c < size; c++) {
        spread[r][c] -= part * lean[c];
      }
    }
    for (int k = 0; k < KINDS; k++) {
      spread[FIRST_KIND + k][FIRST_KIND + k] += WANDER * WANDER;
    }
  }

  /**
   * Logarithm of how many times better the measurements fit a card that lacks these loads.
   *
   * @param loads by number, none twice
   */
  double logMissing(int... loads) {
    double own = OWN * OWN;
    double log = 0;
    for (int a : loads) {
      log -= mean[FIRST_LOAD + a] / own;
      for (int b : loads) {
        double information = (a == b ? 1 / own : 0);
        log -= (information - spread[FIRST_LOAD + a][FIRST_LOAD + b] / (own * own)) / 2;
      }
    }
    return log;
  }
}
