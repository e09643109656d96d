package cardproof.sim;

import cardproof.card.RelayFigures;
import cardproof.sim.circuit.Draws;
import java.util.Arrays;

/**
 * How long the relays behind each line of one unit take: a number of stages and a spread of its own
 * for each line, a little spread for each operation, and bounce after it.
 *
 * <p>Every time is drawn from (unit, line, operation number) alone. No delay is longer than {@code
 * unseenStages x (slower of operate and release + bounce)}, so the card's quiet floor holds.
 */
final class RelayTimes {
  /** Most changes of a line in one operation: the first, and two for each bounce. */
  static final int MOST_CHANGES = 9;

  private static final double LINE_SPREAD = 0.08;
  private static final double OPERATION_SPREAD = 0.02;
  private static final int MOST_BOUNCES_MAKING = 4;
  private static final int MOST_BOUNCES_BREAKING = 1;
  private static final int BREAK_BOUNCE_DIVISOR = 4;
  private static final long LEAST_TRAVEL_NS = 100_000;
  private static final int RACE_SPREAD_DIVISOR = 8;
  private static final int NS_PER_US = 1000;

  private static final int STAGES = 1;
  private static final int OPERATE = 2;
  private static final int RELEASE = 3;
  private static final int OPERATION = 4;

  private final long firstOperation;
  private final long[] operateNs;
  private final long[] releaseNs;
  private final long[] lineKey;
  private final long bounceNs;
  private final long slowestNs;
  private final long beatNs;

  /**
   * @param unit key of the unit
   * @param firstOperation number of the first operation of each line, by which its draws go
   */
  RelayTimes(RelayFigures figures, int lines, long unit, long firstOperation) {
    this.firstOperation = firstOperation;
    this.operateNs = new long[lines];
    this.releaseNs = new long[lines];
    this.lineKey = new long[lines];
    this.bounceNs = figures.bounceUs() * NS_PER_US;
    long slowerUs = Math.max(figures.operateUs(), figures.releaseUs());
    this.beatNs = Math.max(LEAST_TRAVEL_NS, slowerUs * NS_PER_US);
    int stages = Math.max(1, figures.unseenStages());
    this.slowestNs =
        Math.max(LEAST_TRAVEL_NS, stages * (slowerUs + figures.bounceUs()) * NS_PER_US);
    for (int line = 0; line < lines; line++) {
      long key = Draws.key(unit, line);
      int here = 1 + Draws.below(Draws.key(key, STAGES), stages);
      operateNs[line] = spread(here * figures.operateUs(), Draws.key(key, OPERATE));
      releaseNs[line] = spread(here * figures.releaseUs(), Draws.key(key, RELEASE));
      lineKey[line] = Draws.key(key, OPERATION);
    }
  }

  /** No operation takes longer to its first change. */
  long slowestNs() {
    return slowestNs;
  }

  /** How long one stage takes: the beat of relays that feed one another for ever. */
  long beatNs() {
    return beatNs;
  }

  /**
   * First change of an operation that starts now.
   *
   * @param number how many operations this line made before
   */
  long firstNs(int line, long number, boolean rising, long nowNs) {
    double factor = Draws.around1(operation(line, number), OPERATION_SPREAD);
    long delayNs = Math.round((rising ? operateNs[line] : releaseNs[line]) * factor);
    return nowNs + Math.min(Math.max(LEAST_TRAVEL_NS, delayNs), slowestNs);
  }

  /** First change of an operation whose relays have been on their way for a beat. */
  long firstInRaceNs(int line, long number, long nowNs) {
    return nowNs + (long) (Draws.unit(operation(line, number)) * beatNs / RACE_SPREAD_DIVISOR);
  }

  /**
   * All changes of an operation.
   *
   * @param firstNs the first
   * @param into gets them from {@code at} on, rising, an odd number of them
   * @return how many
   */
  int changes(int line, long number, boolean rising, long firstNs, long[] into, int at) {
    long key = operation(line, number);
    into[at] = firstNs;
    int most = rising ? MOST_BOUNCES_MAKING : MOST_BOUNCES_BREAKING;
    long withinNs = rising ? bounceNs : bounceNs / BREAK_BOUNCE_DIVISOR;
    int extra = 2 * Draws.below(Draws.key(key, 0), most + 1);
    if (withinNs < extra) {
      return 1;
    }
    for (int i = 1; i <= extra; i++) {
      into[at + i] = firstNs + 1 + (long) (Draws.unit(Draws.key(key, i)) * withinNs);
    }
    Arrays.sort(into, at + 1, at + 1 + extra);
    return 1 + extra;
  }

  private long operation(int line, long number) {
    return Draws.key(lineKey[line], firstOperation + number);
  }

  private static long spread(long figureUs, long key) {
    return Math.round(figureUs * NS_PER_US * Draws.around1(key, LINE_SPREAD));
  }
}
