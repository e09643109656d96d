package cardproof.card.wiring.review;

/**
 * A relay, a group or a region, with what is known of it once all that feed it from outside have
 * made their last move.
 *
 * @param relays ascending within each group
 * @param toOutside the longest chain that feeds it from outside: after so many stages it alone may
 *     move
 */
record Block(int[] relays, Phases phases, Trail toOutside) {}
