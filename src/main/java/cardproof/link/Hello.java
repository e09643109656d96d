package cardproof.link;

/** Asks who is there. */
public record Hello(int major, int minor) implements Message {}
