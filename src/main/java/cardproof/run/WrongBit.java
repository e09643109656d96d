package cardproof.run;

import cardproof.card.Line;

/**
 * A line that was not as it had to be.
 *
 * @param what in a few words: {@code wanted 1, seen 0}
 */
public record WrongBit(Line line, String what) {}
