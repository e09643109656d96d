package cardproof.run;

import java.util.Locale;
import java.util.Optional;

/**
 * Compares the fixture's clock with this computer's. A result reaches this computer some time after
 * the fixture has stamped it, never before; so of several the one that took least is the best to
 * read both clocks by (the minimum filter of RFC 5905, section 10), here the best within some
 * seconds at the beginning against the best within the last. One thread.
 */
public final class ClockComparison {
  /** A drift beyond this is worth saying: settle times are wrong by as much. */
  private static final double MOST = 0.01;

  private static final long BUCKET_NS = 2_000_000_000L;
  private static final int LEAST_READINGS = 4;
  private static final long LEAST_SPAN_NS = 5_000_000_000L;

  /** How differently the best of two buckets may have been delayed on their way. */
  private static final double UNSURE_NS = 25e6;

  private Bucket first = new Bucket();
  private Bucket filling = first;
  private Bucket best;
  private boolean over;

  /** Readings of some seconds; {@code offsetNs} is the least that host is ahead of fixture. */
  private static final class Bucket {
    private long beganNs;
    private int readings;
    private long offsetNs = Long.MAX_VALUE;
    private long atNs;
  }

  /**
   * Takes one reading.
   *
   * @param hostNs this computer's clock now
   * @param fixtureUs the fixture's, a moment ago
   */
  void take(long hostNs, long fixtureUs) {
    if (over) {
      return;
    }
    if (filling.readings == 0) {
      filling.beganNs = hostNs;
    }
    filling.readings++;
    long offsetNs = hostNs - fixtureUs * 1_000;
    if (offsetNs < filling.offsetNs) {
      filling.offsetNs = offsetNs;
      filling.atNs = hostNs;
    }
    if (filling.readings >= LEAST_READINGS && hostNs - filling.beganNs >= BUCKET_NS) {
      if (filling != first) {
        best = filling;
      }
      filling = new Bucket();
    }
  }

  /** This computer's clock did not count for a while. */
  void startOver() {
    if (best == null) {
      first = new Bucket();
      filling = first;
    } else {
      over = true; // what was found before holds, and nothing is added
    }
  }

  /**
   * By how much of its own reading the fixture's clock is fast; negative where it is slow. Empty
   * where readings are too few or too close together to tell.
   */
  public Optional<Double> drift() {
    return best == null || best.atNs - first.atNs < LEAST_SPAN_NS
        ? Optional.empty()
        : Optional.of(fast());
  }

  private double fast() {
    return (double) (first.offsetNs - best.offsetNs) / (best.atNs - first.atNs);
  }

  /** What to tell where the drift is certainly beyond 1 %. */
  public Optional<String> warning() {
    return drift()
        .filter(drift -> Math.abs(drift) > MOST + UNSURE_NS / (best.atNs - first.atNs))
        .map(drift -> words(drift, (best.atNs - first.atNs) / 1e9));
  }

  private static String words(double drift, double overS) {
    double percent = Math.abs(drift) * 100;
    return String.format(
        Locale.ROOT,
        "the fixture's clock runs %.1f %% %s than this computer's (over %.0f s), so every settle time"
            + " and limit of this run reads that much too %s: 100 ms on it are %.1f ms. Have the"
            + " board's crystal or resonator looked at before a clock is set by these times",
        percent,
        drift > 0 ? "faster" : "slower",
        overS,
        drift > 0 ? "long" : "short",
        100 / (1 + drift));
  }
}
