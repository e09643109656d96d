/** What a meter should show on a card that has no power. */
package cardproof.card.wiring.meter;
