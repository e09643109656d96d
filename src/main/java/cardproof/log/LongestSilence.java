package cardproof.log;

/**
 * How close the silences of a run came to its quiet windows, vector by vector.
 *
 * @param narrow vectors with a silence above the share that was asked about
 * @param asLong vectors with a silence as long as their quiet window, or longer
 * @param vector number of the one whose silence is the largest share of its window
 * @param gapUs longest silence of that vector before a change
 * @param quietUs its quiet window
 */
public record LongestSilence(long narrow, long asLong, long vector, long gapUs, long quietUs) {}
