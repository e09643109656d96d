package cardproof.link;

import java.util.BitSet;

/**
 * One pattern and what is expected of it. Times in microseconds from the first drive switched.
 *
 * @param number counted from 0 in each session
 * @param gate hold when this step misses
 * @param audit watch to the end even when matched and quiet
 * @param dwell whether to sample at {@code dwellUs}
 * @param capture keep every edge
 * @param limitUs latest allowed change
 * @param watchUs end of watching
 * @param quietUs quiet window
 * @param level drives to be 1
 * @param enable drives to be driven; the others are released
 * @param expect levels that should come
 * @param care watches that are compared
 * @param still watches that must not move
 */
public record Step(
    int number,
    boolean gate,
    boolean audit,
    boolean dwell,
    boolean capture,
    long limitUs,
    long watchUs,
    long quietUs,
    long dwellUs,
    BitSet level,
    BitSet enable,
    BitSet expect,
    BitSet care,
    BitSet still)
    implements Message {
  /** As version 1.0 has it: no edges are kept. */
  public Step(
      int number,
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
    this(
        number, gate, audit, dwell, false, limitUs, watchUs, quietUs, dwellUs, level, enable,
        expect, care, still);
  }
}
