package cardproof.card.wiring.review;

import java.util.BitSet;

/**
 * A pattern with which the relays do not come to rest.
 *
 * @param lines that are driven
 * @param before relays that are operated when the pattern is driven
 * @param around relays that are operated at some point of the circle that they go round
 */
record Unrest(BitSet lines, BitSet before, BitSet around) {}
