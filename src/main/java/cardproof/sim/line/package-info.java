/**
 * What can befall the bytes between a host and the simulated fixture: frames that are lost,
 * damaged, repeated, held up, and lines that go dead for a while.
 *
 * <p>{@link cardproof.sim.line.LineFault} is the grammar, {@link cardproof.sim.line.NoisyLine} one
 * direction at work. All is in virtual time and drawn from a seed: the same bytes at the same times
 * come out the same way. Nothing here knows what a frame means, only that a zero byte ends one.
 */
package cardproof.sim.line;
