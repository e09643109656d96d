package cardproof.sim.circuit;

import cardproof.card.wiring.Figure;

/**
 * How a contact bounces after it has made: it opens and closes three to five times, sooner and
 * sooner, and stays closed when its bounce time ends. MIL-R-5757J, glossary and 4.6.8.5.1: bounce
 * time runs from the first make until uncontrolled making and breaking ends, and counts from 10 us
 * on.
 */
final class Bounce {
  static final int MOST_CHANGES = 10;
  private static final int LEAST_TIMES = 3;
  private static final int MOST_TIMES = MOST_CHANGES / 2;
  private static final double SHORTEST_NS = 10_000;
  private static final double OPERATION_SPREAD = 0.05;
  private static final double JITTER = 0.5;
  private static final double NS_PER_US = 1000;

  private final long key;
  private final double baseNs;
  private final double leastNs;
  private final double mostNs;

  Bounce(Figure figure, long key) {
    this.key = key;
    this.leastNs = figure.leastUs() * NS_PER_US;
    this.mostNs = figure.mostUs() * NS_PER_US;
    double part = (Draws.unit(Draws.key(key, 0)) + Draws.unit(Draws.key(key, 1))) / 2;
    this.baseNs = leastNs + part * (mostNs - leastNs);
  }

  /**
   * @param madeNs when the contact made
   * @param into gets the changes after that from {@code at} on, rising
   * @return how many, an even number
   */
  int changes(long operation, long madeNs, long[] into, int at) {
    long draw = Draws.key(key, operation);
    double ns = baseNs * Draws.around1(draw, OPERATION_SPREAD);
    double lasts = Math.max(leastNs, Math.min(mostNs, ns));
    int more = Draws.below(Draws.key(draw, 0), MOST_TIMES - LEAST_TIMES + 1);
    int count = 2 * (LEAST_TIMES + more);
    while (count > 0 && lasts * (1 - part(count - 1, count, JITTER / 2)) < SHORTEST_NS) {
      count -= 2;
    }
    for (int i = 1; i <= count; i++) {
      double off = i == count ? 0 : (Draws.unit(Draws.key(draw, i)) - 0.5) * JITTER;
      into[at + i - 1] = madeNs + Math.round(lasts * part(i, count, off));
    }
    return count;
  }

  /**
   * Where change i of count lies in the bounce time, 0 to 1.
   *
   * @param off by how much of a place it is moved
   */
  private static double part(int i, int count, double off) {
    double left = (count - i - off) / count;
    return i == count ? 1 : 1 - left * Math.sqrt(left);
  }
}
