package cardproof.link;

/**
 * One change of one watched line.
 *
 * @param atUs microseconds from the start of the step, at the sample that saw it
 * @param level of the watch from then on
 */
public record Edge(long atUs, int watch, boolean level) {}
