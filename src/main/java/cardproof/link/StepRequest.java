package cardproof.link;

import java.util.BitSet;

/**
 * A {@link Step} that has no number yet. Times in microseconds from the first drive switched.
 *
 * @param gate hold when this step misses
 * @param audit watch to the end even when matched and quiet
 * @param dwell whether to sample at {@code dwellUs}
 * @param limitUs latest allowed change
 * @param watchUs end of watching
 * @param quietUs quiet window
 * @param level drives to be 1
 * @param enable drives to be driven; the others are released
 * @param expect levels that should come
 * @param care watches that are compared
 * @param still watches that must not move
 */
public record StepRequest(
    boolean gate,
    boolean audit,
    boolean dwell,
    long limitUs,
    long watchUs,
    long quietUs,
    long dwellUs,
    BitSet level,
    BitSet enable,
    BitSet expect,
    BitSet care,
    BitSet still) {
  Step numbered(int number) {
    return new Step(
        number, gate, audit, dwell, limitUs, watchUs, quietUs, dwellUs, level, enable, expect, care,
        still);
  }
}
