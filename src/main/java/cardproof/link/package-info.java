/**
 * Frames between host and fixture, and the host's side of running every step exactly once.
 *
 * <p>The contract is {@code firmware-notes/protocol.md}. {@link cardproof.link.MessageCodec} and
 * {@link cardproof.link.FrameParser} serve both ends; {@link cardproof.link.HostLink} is the
 * host's. Nothing here knows cards or plans: channels are numbers, sets of channels are {@link
 * java.util.BitSet}s.
 */
package cardproof.link;
