package cardproof.sim.circuit;

/**
 * A copy of a card, and one time it is on the bench. The copy has its own relays, which stay what
 * they are; each time they are a little quicker or slower, all of them and each of them, as supply
 * and warmth have it, and no two operations are alike.
 *
 * @param unit key of the copy
 * @param session which time; in session 0 every relay is as it is by itself
 */
public record Occasion(long unit, long session) {
  private static final double SHARED_SPREAD = 0.01;
  private static final double OWN_SPREAD = 0.005;
  private static final int SHARED = 11;
  private static final int OWN = 12;
  private static final int OPERATIONS_BITS = 32;

  /** The copy as it is by itself. */
  public static Occasion first(long unit) {
    return new Occasion(unit, 0);
  }

  /** By what all times of a relay are multiplied this time. */
  double factor(long relay) {
    if (session == 0) {
      return 1;
    }
    return Draws.around1(Draws.key(Draws.key(unit, SHARED), session), SHARED_SPREAD)
        * Draws.around1(Draws.key(Draws.key(relay, OWN), session), OWN_SPREAD);
  }

  /** Key of what comes and goes: when a fault is there that is not there always. */
  public long spells() {
    return session == 0 ? unit : Draws.key(unit, session);
  }

  /** Number of the first operation of each relay: what an operation draws goes by its number. */
  public long firstOperation() {
    return session << OPERATIONS_BITS;
  }
}
