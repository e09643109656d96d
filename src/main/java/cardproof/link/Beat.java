package cardproof.link;

/** Says that the host lives, and that every step below {@code ack} is safe. */
public record Beat(int ack) implements Message {}
