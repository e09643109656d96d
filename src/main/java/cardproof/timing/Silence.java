package cardproof.timing;

import cardproof.log.BenchLog;
import cardproof.log.LineName;
import cardproof.log.LongestSilence;
import cardproof.log.MovedLine;
import cardproof.log.StepTitle;
import cardproof.log.VectorRecord;
import java.util.Optional;
import java.util.TreeSet;

/**
 * How close the silences before changes came to the quiet window, in one run. A silence as long as
 * the window means that a card that matched and held still may have been taken for settled too
 * early.
 *
 * @param narrow vectors with a silence above {@link #NARROW} of their window
 * @param asLong vectors with one as long as the window, or longer
 * @param vector number, from 0, of the one whose silence is the largest share of its window
 * @param origin where the plan has it
 * @param gapUs that silence
 * @param quietUs the window it is compared with
 * @param endedBy the line whose change ended it, where first and last changes of lines tell
 */
public record Silence(
    long narrow,
    long asLong,
    long vector,
    String origin,
    long gapUs,
    long quietUs,
    Optional<LineName> endedBy) {
  /** Share of the quiet window above which a silence is too close to it; our judgement. */
  public static final double NARROW = 0.7;

  /** Empty where nothing moved after a silence. */
  public static Optional<Silence> of(BenchLog log, long run) {
    return log.longestSilence(run, NARROW).map(longest -> of(log, run, longest));
  }

  private static Silence of(BenchLog log, long run, LongestSilence longest) {
    VectorRecord record = log.vector(run, longest.vector()).orElseThrow();
    StepTitle step =
        log.run(run).orElseThrow().steps().stream()
            .filter(each -> each.step() == record.step())
            .findFirst()
            .orElseThrow();
    return new Silence(
        longest.narrow(),
        longest.asLong(),
        longest.vector(),
        step.origin(record.indexInStep()),
        longest.gapUs(),
        longest.quietUs(),
        endedBy(record).flatMap(line -> named(log, run, line)));
  }

  /**
   * A line whose first or last change came so long after the change known before it. Changes in
   * between are not kept; where the silence lay among them no line fits.
   */
  private static Optional<Integer> endedBy(VectorRecord record) {
    TreeSet<Long> knownUs = new TreeSet<>();
    knownUs.add(0L);
    for (MovedLine moved : record.moved()) {
      knownUs.add(moved.firstUs());
      knownUs.add(moved.lastUs());
    }
    for (MovedLine moved : record.moved()) {
      if (ends(record.gapUs(), moved.firstUs(), knownUs)
          || ends(record.gapUs(), moved.lastUs(), knownUs)) {
        return Optional.of(moved.line());
      }
    }
    return Optional.empty();
  }

  /** Both times are cut to whole microseconds, so their difference may be one off. */
  private static boolean ends(long gapUs, long changeUs, TreeSet<Long> knownUs) {
    Long beforeUs = knownUs.lower(changeUs);
    return beforeUs != null && Math.abs(changeUs - beforeUs - gapUs) <= 1;
  }

  private static Optional<LineName> named(BenchLog log, long run, int line) {
    return log.lines(run).stream().filter(name -> name.line() == line).findFirst();
  }
}
