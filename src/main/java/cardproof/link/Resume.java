package cardproof.link;

/** Goes on after the gated step {@code number} missed. */
public record Resume(int number) implements Message {}
