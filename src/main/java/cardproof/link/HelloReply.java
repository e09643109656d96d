package cardproof.link;

/**
 * Who the fixture is.
 *
 * @param resetCause see {@code protocol.md}; 0 unknown
 * @param boot differs at every reset
 * @param boardId the same at every boot; 0 where there is none
 * @param slots how many steps it keeps, at least 2
 * @param longestFrame bytes before COBS
 * @param blindUs longest time between two samples
 * @param capabilities bits of section 8
 * @param session the session in place, open or ended; 0 after a reset
 */
public record HelloReply(
    int major,
    int minor,
    String firmware,
    int resetCause,
    int boot,
    long boardId,
    int drives,
    int watches,
    int slots,
    int longestFrame,
    long periodNs,
    int blindUs,
    int capabilities,
    String board,
    int session)
    implements Message {}
