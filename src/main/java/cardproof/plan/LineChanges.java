package cardproof.plan;

import cardproof.card.Line;

/** How often a plan switches a line, on and off counted as two. */
public record LineChanges(Line line, long changes) {}
