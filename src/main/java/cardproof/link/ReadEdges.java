package cardproof.link;

/**
 * Asks for the edges that a step kept.
 *
 * @param number of the step
 * @param first index of the first edge wanted
 */
public record ReadEdges(int number, int first) implements Message {}
