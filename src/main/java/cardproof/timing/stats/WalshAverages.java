package cardproof.timing.stats;

import java.util.Arrays;

/**
 * The means of all pairs of values, each with itself among them, without making them: a value is
 * found by halving the range that it must lie in, and counting the means below.
 */
final class WalshAverages {
  private final double[] rising;

  WalshAverages(double[] values) {
    this.rising = values.clone();
    Arrays.sort(rising);
  }

  long count() {
    return rising.length * (rising.length + 1L) / 2;
  }

  /** The k-th from below, k from 1. */
  double smallest(long k) {
    double low = rising[0];
    double high = rising[rising.length - 1];
    while (true) {
      double middle = low + (high - low) / 2;
      if (middle <= low || middle >= high) {
        return atMost(low) >= k ? low : high;
      }
      if (atMost(middle) >= k) {
        high = middle;
      } else {
        low = middle;
      }
    }
  }

  /** Of an even count the mean of the two in the middle. */
  double median() {
    long count = count();
    return (smallest((count + 1) / 2) + smallest(count / 2 + 1)) / 2;
  }

  private long atMost(double limit) {
    long found = 0;
    int other = rising.length - 1;
    for (int i = 0; i < rising.length; i++) {
      while (other >= i && (rising[i] + rising[other]) / 2 > limit) {
        other--;
      }
      if (other < i) {
        break;
      }
      found += other - i + 1;
    }
    return found;
  }
}
