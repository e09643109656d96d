package cardproof.sim;

import cardproof.sim.circuit.CircuitWarnings;
import java.util.BitSet;
import java.util.Optional;
import java.util.function.IntConsumer;

/**
 * A card being simulated, seen from the fixture's end of its wires.
 *
 * <p>Lines are numbered over the whole card, {@link cardproof.card.Line#index}. Time is virtual, in
 * nanoseconds, and never goes back. The order of calls is: {@link #onChange} once, then {@link
 * #drive} and {@link #advance} as time goes by. Between two calls nothing changes. Not thread safe.
 */
interface Circuit {
  /** Who is told of each line whose level, as the fixture sees it, has changed. */
  void onChange(IntConsumer lineChanged);

  /**
   * From now on tells of every edge at its own time, in order; and of all levels, at the time that
   * was reached, at once. One listener at a time; it changes nothing.
   */
  void tap(WaveListener who);

  /**
   * From now on the fixture drives exactly these lines to 1 and leaves all others released. All
   * that was due up to now happens first. May tell of changes at once.
   */
  void drive(long nowNs, BitSet driven);

  /** When the next change may come if nothing is driven anew; {@link EventQueue#NEVER} if none. */
  long nextChangeNs();

  /** Lets everything happen that is due up to now, now included. */
  void advance(long nowNs);

  /** The level of a line as the fixture sees it. */
  boolean level(int line);

  /** Whether it follows what is soldered, so that there are nets and a supply to be told of. */
  boolean fromWiring();

  /** Whether the card's supply has tripped; it stays tripped until the circuit says otherwise. */
  boolean supplyTripped();

  /**
   * Switches the card's supply; it is on at first. Without it every line is at 0, relays fall, and
   * what they held is lost. Switching on starts a supply that had tripped anew.
   */
  default void power(long nowNs, boolean on) {
    throw new UnsupportedOperationException("a circuit without a supply of its own");
  }

  /** What the card draws, where the circuit is one of currents. */
  default Optional<SupplyMeter> meter() {
    return Optional.empty();
  }

  /** What went on inside, where the circuit is one of currents. */
  default Optional<CircuitWarnings> warnings() {
    return Optional.empty();
  }
}
