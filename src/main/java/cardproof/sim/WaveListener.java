package cardproof.sim;

import cardproof.sim.circuit.NetLevel;

/**
 * Who is told of all that moves on a simulated bench, at the instant at which it does: every edge,
 * bounce included, whether the fixture sampled it or not.
 *
 * <p>Times are on the clock of the bench, in nanoseconds, and never go back. Told on the thread
 * that lets time pass. Must not throw, and must not call the bench.
 */
public interface WaveListener {
  /**
   * A line, by its index over the card, is at this level from now on, as the fixture's end of it
   * shows. Also told of every line once at the beginning.
   */
  void lineChanged(long nowNs, int line, boolean level);

  /**
   * A net of the card's wiring, by its number, is at this level from now on. Also told of every net
   * once at the beginning. Never told by a card that is simulated from its behaviour.
   */
  void netChanged(long nowNs, int net, NetLevel level);

  /** What the supply gives from now on. Never told where {@link #netChanged} is not. */
  void supplyChanged(long nowNs, long millivolts, long microamps);

  /** The fixture starts this step, the session's first being 0; its drives have just switched. */
  void stepStarted(long nowNs, int number);
}
