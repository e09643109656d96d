package cardproof.plan;

/**
 * That the card's supply is switched before a vector.
 *
 * @param on else off
 * @param waitUs how long the card is left alone after that, before the vector starts
 */
public record Power(boolean on, long waitUs) {}
