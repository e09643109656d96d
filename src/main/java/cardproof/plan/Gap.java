package cardproof.plan;

/**
 * Something that a plan leaves untried.
 *
 * @param slot of the bus or state among the names of {@link cardproof.card.Card#scope}; buses come
 *     first, so that below their number it is a bus index
 * @param width of that bus or state
 * @param bits of it that are meant, at least one
 * @param judged in how many vectors they are judged; 0 for bits of a state
 */
public record Gap(GapKind kind, int slot, String name, int width, long bits, long judged) {}
