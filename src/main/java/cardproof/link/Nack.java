package cardproof.link;

/**
 * A frame refused.
 *
 * @param refusedType type byte of that frame
 * @param next number of the step the fixture accepts next
 * @param detail for {@link NackReason#BAD_FIELD} the offset of the field
 */
public record Nack(NackReason reason, int refusedType, int next, int detail) implements Message {}
