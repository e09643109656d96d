package cardproof.link;

import java.util.BitSet;
import java.util.List;
import java.util.Optional;

/**
 * What a step did. Times in microseconds from {@code startUs}, which is on the fixture's clock.
 *
 * @param next number of the step the fixture accepts next
 * @param flags bits of {@link ResultFlag}
 * @param startUs when the first drive had switched
 * @param durationUs from start to the end of watching
 * @param skewUs from the first drive switched to the last
 * @param gapUs longest silence before the last change
 * @param blindUs worst blind time in this step
 * @param before levels before the drives switched
 * @param last levels at the end
 * @param atDwell levels at the dwell sample
 * @param unstable lines that changed close to the dwell sample
 * @param glitched lines with a pulse only an edge latch saw
 * @param stirred lines that changed between the step before and this one
 * @param movedTotal lines that moved, over all parts
 * @param firstEntry index of the first entry of this part
 * @param moved entries of this part; of the whole result once assembled
 * @param sense rail and current, where the fixture senses them
 */
public record Result(
    int number,
    int next,
    int flags,
    long startUs,
    long durationUs,
    int skewUs,
    long gapUs,
    int blindUs,
    BitSet before,
    BitSet last,
    BitSet atDwell,
    BitSet unstable,
    BitSet glitched,
    BitSet stirred,
    int movedTotal,
    int firstEntry,
    List<MovedWatch> moved,
    Optional<StepSense> sense)
    implements Message {
  public Result {
    moved = List.copyOf(moved);
  }

  /** Of a fixture that does not sense rail and current. */
  public Result(
      int number,
      int next,
      int flags,
      long startUs,
      long durationUs,
      int skewUs,
      long gapUs,
      int blindUs,
      BitSet before,
      BitSet last,
      BitSet atDwell,
      BitSet unstable,
      BitSet glitched,
      BitSet stirred,
      int movedTotal,
      int firstEntry,
      List<MovedWatch> moved) {
    this(
        number,
        next,
        flags,
        startUs,
        durationUs,
        skewUs,
        gapUs,
        blindUs,
        before,
        last,
        atDwell,
        unstable,
        glitched,
        stirred,
        movedTotal,
        firstEntry,
        moved,
        Optional.empty());
  }

  public boolean has(ResultFlag flag) {
    return (flags & flag.bit()) != 0;
  }

  /** The same head with other entries. */
  Result withEntries(int total, int first, List<MovedWatch> entries) {
    return new Result(
        number,
        next,
        flags,
        startUs,
        durationUs,
        skewUs,
        gapUs,
        blindUs,
        before,
        last,
        atDwell,
        unstable,
        glitched,
        stirred,
        total,
        first,
        entries,
        sense);
  }
}
