/**
 * Several cards joined into one unit under test: their buses, what they do and what is soldered on
 * them. What comes out is a {@link cardproof.card.Card} like any other.
 */
package cardproof.card.compose;
