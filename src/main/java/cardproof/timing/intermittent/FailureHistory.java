package cardproof.timing.intermittent;

import cardproof.log.BenchLog;
import cardproof.log.RunSummary;
import cardproof.timing.stats.Clustering;
import cardproof.timing.stats.Proportion;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.LongPredicate;

/**
 * What passed and what failed over runs of one plan on one unit, one vector after the other.
 * Failures of a loose joint come in bunches, so the vectors of one session say little of the next:
 * sessions are counted where the log knows of them. A session begins when the card's power came on.
 *
 * <p>A vector that failed in every one of several runs is a fault that stands. It is told of, and
 * counts in nothing else here.
 *
 * @param runs how many there were
 * @param judged vectors that passed or failed
 * @param failed those that failed
 * @param sessions power cycles; 0 where the log does not know of any
 * @param failedSessions those in which something failed
 * @param bunched how likely gaps between failures as uneven as these are by chance; 1 below five
 * @param vectors those that failed, the most often failing first
 */
public record FailureHistory(
    int runs,
    int judged,
    int failed,
    int sessions,
    int failedSessions,
    double bunched,
    List<VectorFailures> vectors) {
  /** Of every bound and of the rule for "repaired". */
  public static final double CONFIDENCE = 0.95;

  private static final int DRAWS = 9_999;
  private static final long SEED = 20_260_301;

  public FailureHistory {
    vectors = List.copyOf(vectors);
  }

  /**
   * Reads runs of one plan.
   *
   * @param runs the oldest first
   */
  public static FailureHistory of(BenchLog log, List<RunSummary> runs) {
    return of(log, runs, vector -> true);
  }

  /**
   * Reads some vectors of runs of one plan.
   *
   * @param runs the oldest first
   * @param which of the vectors, by number
   */
  public static FailureHistory of(BenchLog log, List<RunSummary> runs, LongPredicate which) {
    List<Long> ids = runs.stream().map(RunSummary::id).toList();
    FailureCounts counts = FailureCounts.of(log, ids, which);
    FailureCourse course = FailureCourse.of(log, ids, which, counts);
    long[] failures = course.failures();
    return new FailureHistory(
        runs.size(),
        course.judged(),
        failures.length,
        course.sessions(),
        course.failedSessions(),
        Clustering.pValue(failures, course.judged(), DRAWS, new SplittableRandom(SEED)),
        counts.failing());
  }

  /** At most so large a share of vectors fails, as sure as {@link #CONFIDENCE}. */
  public double mostOfVectors() {
    return Proportion.upper(failed, judged, CONFIDENCE);
  }

  /** At most so large a share of sessions has a failure. */
  public double mostOfSessions() {
    return Proportion.upper(failedSessions, sessions, CONFIDENCE);
  }

  /**
   * How many vectors must pass in a row before a card that failed so often can be called repaired:
   * fewer come by chance, failures as frequent as before, more often than {@link #CONFIDENCE}
   * allows.
   *
   * @param failed of the vectors before, at least one and not all
   * @param judged vectors before
   */
  public static long cleanNeeded(int failed, int judged) {
    double rate = (double) failed / judged;
    return (long) Math.ceil(Math.log(1 - CONFIDENCE) / Math.log1p(-rate));
  }
}
