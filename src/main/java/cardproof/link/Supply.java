package cardproof.link;

/** Switches the card's supply; the drives are released first. */
public record Supply(boolean on) implements Message {}
