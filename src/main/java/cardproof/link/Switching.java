package cardproof.link;

import java.util.BitSet;

/**
 * One entry of a {@link Sequence}: what the drives are from a time on.
 *
 * @param atUs microseconds from the start of the step
 * @param level drives to be 1
 * @param enable drives to be driven; the others are released
 */
public record Switching(long atUs, BitSet level, BitSet enable) {}
