package cardproof.timing.drift;

/**
 * A line's median time in its probe transition in one run.
 *
 * @param run its id
 * @param n repeats in the run
 * @param medianUs of them, microseconds
 */
public record Point(long run, int n, double medianUs) {}
