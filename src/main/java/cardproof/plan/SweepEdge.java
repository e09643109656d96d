package cardproof.plan;

import cardproof.card.Line;
import java.util.OptionalLong;

/**
 * What a sweep found of one line going one way.
 *
 * @param line where it shows
 * @param rising whether the line goes to 1 when the data is taken
 * @param workedUs the shortest time from which on it always worked; empty where it failed at the
 *     longest
 * @param failedUs the longest at which it failed; empty where it never did
 * @param everWorkedUs the shortest at which it worked at all: where that is before {@code failedUs}
 *     it worked and failed by turns between the two
 * @param trials of this line going this way
 * @param atEdge of those, how many worked at {@code workedUs}
 */
public record SweepEdge(
    Line line,
    boolean rising,
    OptionalLong workedUs,
    OptionalLong failedUs,
    OptionalLong everWorkedUs,
    int trials,
    int atEdge) {}
