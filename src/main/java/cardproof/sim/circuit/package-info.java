/**
 * A card simulated from what is soldered on it: contacts that travel and bounce, coils that see a
 * voltage, a supply with a limit. Driven by events, in virtual time.
 *
 * <p>Knows nothing of fixtures, frames or lines' names; {@code cardproof.sim} joins it to them.
 */
package cardproof.sim.circuit;
