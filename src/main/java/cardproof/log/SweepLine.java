package cardproof.log;

import java.util.OptionalLong;

/**
 * What a sweep found of one line going one way, in microseconds.
 *
 * @param line index over the whole card
 * @param rising whether the line goes to 1 when the data is taken
 * @param workedUs the shortest time from which on it always worked; empty where it failed at the
 *     longest
 * @param failedUs the longest at which it failed; empty where it never did
 * @param everWorkedUs the shortest at which it worked at all; before {@code failedUs} where it
 *     worked and failed by turns
 * @param trials of this line going this way
 * @param atEdge of those, how many worked at {@code workedUs}
 */
public record SweepLine(
    int line,
    boolean rising,
    OptionalLong workedUs,
    OptionalLong failedUs,
    OptionalLong everWorkedUs,
    int trials,
    int atEdge) {
  /** Whether it worked at some time and failed at a longer one. */
  public boolean mixed() {
    return everWorkedUs.isPresent()
        && failedUs.isPresent()
        && everWorkedUs.getAsLong() <= failedUs.getAsLong();
  }
}
