package cardproof.link;

import java.util.BitSet;

/**
 * What a session allows and watches; the link adds which boot and session it follows. Ranges are
 * those of OPEN in {@code firmware-notes/protocol.md}.
 *
 * @param silenceMs silence of the host after which the fixture drops its drives
 * @param chatterMoves moves of one line in one step that trip
 * @param chatterChanges changes of one line in one step that trip
 * @param moveRestUs rest of a line after which a change counts as a move
 * @param holdMs longest time that one pattern is held live
 * @param drives that may be switched on
 * @param watches that are watched
 */
public record OpenRequest(
    int silenceMs,
    int chatterMoves,
    int chatterChanges,
    int moveRestUs,
    long holdMs,
    BitSet drives,
    BitSet watches) {
  Open following(int boot, int follows) {
    return new Open(
        boot,
        follows,
        silenceMs,
        chatterMoves,
        chatterChanges,
        moveRestUs,
        holdMs,
        drives,
        watches);
  }
}
