package cardproof.link;

/** The body of a frame; the tables of {@code firmware-notes/protocol.md}, sections 5 and 9. */
public sealed interface Message
    permits Hello,
        HelloReply,
        Open,
        Arm,
        Stop,
        Resume,
        Step,
        Beat,
        Read,
        Status,
        Result,
        Nack,
        Sequence,
        ReadEdges,
        Edges,
        Supply,
        SupplyReply,
        ReadSense,
        Sense {}
