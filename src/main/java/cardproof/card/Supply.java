package cardproof.card;

/** What a card is powered with: its working voltage and the most current it should ever draw. */
public record Supply(long millivolts, long limitMilliamps) {}
