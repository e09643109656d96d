package cardproof.timing.pace;

/**
 * The repeats of a transition in one run.
 *
 * @param run its id
 * @param n how many
 * @param largestUs the longest of them; infinite where one was not seen to settle
 */
public record RunRepeats(long run, int n, double largestUs) {}
