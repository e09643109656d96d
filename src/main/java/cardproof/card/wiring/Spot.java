package cardproof.card.wiring;

/** A place on the component side of a card, in millimetres from its lower left corner. */
public record Spot(double xMm, double yMm) {}
