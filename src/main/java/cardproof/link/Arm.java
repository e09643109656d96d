package cardproof.link;

/** Lets queued steps run. */
public record Arm() implements Message {}
