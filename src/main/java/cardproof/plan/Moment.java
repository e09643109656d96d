package cardproof.plan;

/**
 * What is driven from a time on in the course of one vector. Arrays go by bus index and are not to
 * be written to.
 *
 * @param atUs microseconds from the start of the vector
 * @param level lines driven to 1
 * @param enabled lines driven at all
 */
public record Moment(long atUs, long[] level, long[] enabled) {}
