package cardproof.card.wiring.review;

/**
 * What a review must know besides the wiring.
 *
 * @param supplyMillivolts that the card is powered with
 * @param driveMilliamps what one drive of the fixture gives; 0 where not known
 */
public record ReviewSettings(long supplyMillivolts, long driveMilliamps) {}
