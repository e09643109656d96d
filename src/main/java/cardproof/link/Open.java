package cardproof.link;

import java.util.BitSet;

/**
 * Starts a session; drops every drive.
 *
 * @param boot the boot this is meant for
 * @param follows the session in place before
 * @param silenceMs silence of the host after which the fixture drops its drives
 * @param chatterMoves moves of one line in one step that trip
 * @param chatterChanges changes of one line in one step that trip
 * @param moveRestUs rest of a line after which a change counts as a move
 * @param holdMs longest time that one pattern is held live
 */
public record Open(
    int boot,
    int follows,
    int silenceMs,
    int chatterMoves,
    int chatterChanges,
    int moveRestUs,
    long holdMs,
    BitSet drives,
    BitSet watches)
    implements Message {}
