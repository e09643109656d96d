package cardproof.log;

/**
 * A record that a later one took the place of, kept as it was.
 *
 * @param revision 0 for the first record of its vector, then 1 and up
 * @param record as it was written
 * @param why it no longer holds
 */
public record Superseded(int revision, VectorRecord record, String why) {}
