/**
 * What can be said of a wiring before anything is soldered: what is wrong with it, how its relays
 * hang on one another, how long it may move unseen, and what it draws. Knows the card only by its
 * {@link cardproof.card.wiring.review.EdgeLine lines}.
 */
package cardproof.card.wiring.review;
