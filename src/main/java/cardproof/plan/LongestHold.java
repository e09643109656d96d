package cardproof.plan;

/**
 * The longest that a plan leaves the same lines driven; patterns that drive nothing do not count.
 *
 * @param firstVector from 0
 * @param vectors in a row that drive the same lines
 * @param at origin of the first
 * @param expectedUs as {@link PlanCost#expectedUs} is made
 * @param atMostUs with every vector watched to its end
 */
public record LongestHold(
    long firstVector, long vectors, String at, long expectedUs, long atMostUs) {}
