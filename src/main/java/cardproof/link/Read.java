package cardproof.link;

/** Asks for the result of step {@code number} again. */
public record Read(int number) implements Message {}
