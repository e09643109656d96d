package cardproof.plan;

/**
 * What a vector of a sweep is for. Arrays go by bus index and are not to be written to.
 *
 * @param timeUs that is tried
 * @param point which of the times that a sweep may try
 * @param target levels that come where the data is taken
 * @param lines watched bits that tell whether it is: at first, and where it is not taken, they have
 *     the other level
 * @param mustWork whether it is judged; else it is only measured
 */
public record Trial(long timeUs, int point, long[] target, long[] lines, boolean mustWork) {}
