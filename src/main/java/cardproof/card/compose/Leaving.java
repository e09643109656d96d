package cardproof.card.compose;

import cardproof.text.Position;

/**
 * A bus of a card that leaves the whole, by the pins by which it leaves its card and the way it
 * goes there.
 *
 * @param name outside
 */
public record Leaving(String name, MemberBus bus, Position at) {}
