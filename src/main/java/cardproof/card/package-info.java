/**
 * A card as its maker describes it: connectors, lines, behaviour, limits, and the names of what can
 * be wrong with it.
 */
package cardproof.card;
