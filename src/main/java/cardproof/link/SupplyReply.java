package cardproof.link;

/** The state of the supply switch now. */
public record SupplyReply(boolean on) implements Message {}
