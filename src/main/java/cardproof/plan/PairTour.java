package cardproof.plan;

/**
 * Every ordered pair of different codes, once each, in one closed tour: what a decoder or a bus of
 * codes must follow. That there is such a tour follows from Euler (1736): as many changes lead to
 * each code as lead away. This one is put together from tours that all pass through code 0, so that
 * any part of it can be named without walking through what comes before: tour {@code k} is {@code 0
 * k 1 k 2 k .. k-1 k 0}, the 2k changes between {@code k} and every code below it.
 *
 * <p>{@code n} codes have {@code n(n-1)} changes, which are one word more: the last is the first.
 */
final class PairTour implements Generator {
  private final long codes;

  PairTour(long codes) {
    this.codes = codes;
  }

  @Override
  public long count() {
    return codes * (codes - 1) + 1;
  }

  @Override
  public long at(long index) {
    long tour = tour(index);
    long place = index - tour * (tour - 1);
    return place % 2 == 0 ? place / 2 : tour;
  }

  /** The largest k of which tour k, beginning at k(k-1), has begun. */
  private static long tour(long index) {
    long k = Math.max(1, (long) ((1 + Math.sqrt(1 + 4.0 * index)) / 2));
    // the root is rounded: the true one is next to it
    while (k * (k - 1) > index) {
      k--;
    }
    while (k * (k + 1) <= index) {
      k++;
    }
    return k;
  }
}
