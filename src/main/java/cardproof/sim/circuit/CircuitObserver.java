package cardproof.sim.circuit;

/**
 * Who is told of what happens on a simulated card, at the instant at which it happens. Calls come
 * in order of time; times before 0 belong to the power-on.
 */
public interface CircuitObserver {
  /**
   * @param net number of a net of the wiring
   */
  default void net(long timeNs, int net, NetLevel level) {}

  /**
   * @param microamps out of the supply, the fixture's drives included
   * @param millivolts that the supply holds
   */
  default void supply(long timeNs, long microamps, long millivolts) {}
}
