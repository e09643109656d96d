package cardproof.log;

/**
 * Something that the supply current said of a card.
 *
 * @param vector number, from 0, of the vector with which it was certain
 * @param words one sentence
 */
public record SupplyFinding(long vector, String words) {}
