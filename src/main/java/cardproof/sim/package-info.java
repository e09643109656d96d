/**
 * The simulated fixture: the device side of {@code firmware-notes/protocol.md}, joined to a card
 * that is simulated in virtual time.
 *
 * <p>Host, line, fixture and card share one {@link cardproof.sim.EventQueue}, so the same seed
 * gives the same frames to the byte. Nothing here starts a thread, and nothing reads a wall clock
 * or waits but on the one that {@link cardproof.sim.SimulatedBench#keepTo} was given.
 */
package cardproof.sim;
