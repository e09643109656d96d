package cardproof.link;

/** Asks for rail and current. */
public record ReadSense() implements Message {}
