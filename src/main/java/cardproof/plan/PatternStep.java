package cardproof.plan;

import cardproof.text.Position;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * A step that drives patterns.
 *
 * <p>It stands for the cross product of its axes, the last changing fastest, each element combined
 * with each row of its table where it has one; {@code drive} and {@code release} come first and
 * hold through the step. With {@code pulse} every pattern is followed by one vector with the pulse
 * and one with it taken back; a step with nothing but a pulse is those two alone.
 *
 * @param drive buses set to one word each
 * @param each axes of the cross product; empty for one pattern
 * @param rows of its table; empty where it has none. Never changed; it may be a list that makes its
 *     rows when they are asked for, so that it can be of any length
 * @param pulse buses set, then put back to what they were
 * @param expected what must come back, beside or instead of what behaviour says; with a pulse it
 *     belongs to the last vector of each pattern
 * @param still by bus index, the bits that must not move
 * @param sequence what is set after each pattern within the same vector, on the fixture's clock, in
 *     rising order of time; empty for none
 * @param dwellUs when outputs are sampled, whatever they do; 0 for when they have settled
 * @param sweep what it looks for by trials, instead of patterns of its own
 * @param power how the supply is switched before its one vector, which then drives nothing
 */
public record PatternStep(
    Position at,
    String title,
    List<Setting> drive,
    List<Axis> each,
    List<Row> rows,
    List<Setting> pulse,
    List<Expected> expected,
    long[] still,
    Timing timing,
    Marks marks,
    List<Later> sequence,
    long dwellUs,
    Optional<Sweep> sweep,
    Optional<Power> power)
    implements Step {
  /** A step that sweeps nothing and leaves the supply as it is. */
  public PatternStep(
      Position at,
      String title,
      List<Setting> drive,
      List<Axis> each,
      List<Row> rows,
      List<Setting> pulse,
      List<Expected> expected,
      long[] still,
      Timing timing,
      Marks marks,
      List<Later> sequence,
      long dwellUs) {
    this(
        at,
        title,
        drive,
        each,
        rows,
        pulse,
        expected,
        still,
        timing,
        marks,
        sequence,
        dwellUs,
        Optional.empty(),
        Optional.empty());
  }

  /** A step of patterns that stand until the next, judged when they have settled. */
  public PatternStep(
      Position at,
      String title,
      List<Setting> drive,
      List<Axis> each,
      List<Row> rows,
      List<Setting> pulse,
      List<Expected> expected,
      long[] still,
      Timing timing,
      Marks marks) {
    this(at, title, drive, each, rows, pulse, expected, still, timing, marks, List.of(), 0);
  }

  public PatternStep {
    sequence = List.copyOf(sequence);
    drive = List.copyOf(drive);
    each = List.copyOf(each);
    pulse = List.copyOf(pulse);
    expected = List.copyOf(expected);
  }

  @Override
  public Set<String> tags() {
    return marks.tags();
  }

  /** Patterns, the vectors of a pulse not counted. */
  long patternCount() {
    if (sweep.isPresent()) {
      return sweep.get().trials();
    }
    long count = Math.max(1, rows.size());
    for (Axis axis : each) {
      count = Counts.times(count, axis.generator().count());
    }
    return count;
  }

  /** Vectors that each pattern becomes. */
  int vectorsPerPattern() {
    if (sweep.isPresent()) {
      return Sweep.VECTORS;
    }
    if (!pulsed()) {
      return 1;
    }
    return pulseAlone() ? 2 : 3;
  }

  /** Whether patterns are followed by a pulse, be it the step's or the rows' own. */
  boolean pulsed() {
    return !pulse.isEmpty() || !rows.isEmpty() && !rows.get(0).pulse().isEmpty();
  }

  /** How often drives are switched in the course of one of its vectors, at most. */
  public int switches() {
    return sweep.isPresent() ? Sweep.SWITCHES : sequence.size();
  }

  boolean pulseAlone() {
    return drive.isEmpty() && each.isEmpty() && rows.isEmpty();
  }

  @Override
  public long vectorCount() {
    return Counts.times(patternCount(), vectorsPerPattern());
  }
}
