package cardproof.link;

import java.util.BitSet;
import java.util.List;

/**
 * A {@link Step} that has no number yet. Times in microseconds from the first drive switched.
 *
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
 * @param later what the drives become in the course of it; empty for one pattern
 */
public record StepRequest(
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
    BitSet still,
    List<Switching> later) {
  public StepRequest {
    later = List.copyOf(later);
  }

  /** As version 1.0 has it: one pattern, and no edges kept. */
  public StepRequest(
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
        gate, audit, dwell, false, limitUs, watchUs, quietUs, dwellUs, level, enable, expect, care,
        still, List.of());
  }

  /** Whether it is to be the only step that the fixture has. */
  public boolean alone() {
    return capture || !later.isEmpty();
  }

  Message numbered(int number) {
    Step step = step(number);
    return later.isEmpty() ? step : new Sequence(step, later);
  }

  private Step step(int number) {
    return new Step(
        number, gate, audit, dwell, capture, limitUs, watchUs, quietUs, dwellUs, level, enable,
        expect, care, still);
  }
}
