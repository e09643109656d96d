package cardproof.link;

/** The body of a frame; the tables of {@code firmware-notes/protocol.md}, section 5. */
public sealed interface Message
    permits Hello, HelloReply, Open, Arm, Stop, Resume, Step, Beat, Read, Status, Result, Nack {}
