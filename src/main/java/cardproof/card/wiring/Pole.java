package cardproof.card.wiring;

/**
 * One change-over contact: {@code com} is joined to {@code nc} while the relay is released and to
 * {@code no} while it is operated, and to neither on the way.
 *
 * @param com number of a net, or {@link Terminal#NOT_WIRED}
 * @param no the same, normally open
 * @param nc the same, normally closed
 */
public record Pole(int com, int no, int nc) {}
