/**
 * What is soldered: nets, and the parts between them. Knows neither buses nor behaviour; a {@link
 * cardproof.card.Card} says which line is which net.
 */
package cardproof.card.wiring;
