package cardproof.timing.intermittent;

import cardproof.log.BenchLog;
import cardproof.log.PowerOn;
import cardproof.log.RunSummary;
import cardproof.log.VectorRecord;
import cardproof.log.Verdict;
import cardproof.timing.stats.Clustering;
import cardproof.timing.stats.Proportion;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.stream.IntStream;

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
    Reading reading = new Reading();
    for (RunSummary run : runs) {
      reading.read(log, run.id());
    }
    return reading.done(runs.size());
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

  /** What happened, in order, while the runs are read. */
  private static final class Reading {
    private final Map<Long, int[]> counts = new HashMap<>();
    private final Map<Long, Long> runOf = new HashMap<>();
    private final List<Happened> all = new ArrayList<>();
    private int session;

    private record Happened(long vector, boolean failed, int session) {}

    void read(BenchLog log, long run) {
      Deque<PowerOn> powerOns = new ArrayDeque<>(log.powerOns(run));
      log.forEachVector(
          run,
          vector -> {
            while (!powerOns.isEmpty() && powerOns.peek().vector() <= vector.number()) {
              session += powerOns.remove().how().isNewPower() ? 1 : 0;
            }
            take(run, vector);
          });
    }

    private void take(long run, VectorRecord vector) {
      boolean failed = vector.verdict().isFailure();
      if (!failed && vector.verdict() != Verdict.PASS) {
        return;
      }
      int[] count = counts.computeIfAbsent(vector.number(), number -> new int[2]);
      count[0] += failed ? 1 : 0;
      count[1]++;
      if (failed) {
        runOf.put(vector.number(), run);
      }
      all.add(new Happened(vector.number(), failed, session));
    }

    private boolean stands(long vector) {
      int[] count = counts.get(vector);
      return count[0] == count[1] && count[1] > 1;
    }

    FailureHistory done(int runs) {
      List<Happened> counting = all.stream().filter(each -> !stands(each.vector())).toList();
      long[] failures =
          IntStream.range(0, counting.size())
              .filter(i -> counting.get(i).failed())
              .asLongStream()
              .toArray();
      int failedSessions =
          (int)
              counting.stream()
                  .filter(each -> each.failed() && each.session() > 0)
                  .mapToInt(Happened::session)
                  .distinct()
                  .count();
      return new FailureHistory(
          runs,
          counting.size(),
          failures.length,
          session,
          failedSessions,
          Clustering.pValue(failures, counting.size(), DRAWS, new SplittableRandom(SEED)),
          vectors());
    }

    private List<VectorFailures> vectors() {
      List<VectorFailures> vectors = new ArrayList<>();
      counts.forEach(
          (vector, count) -> {
            if (count[0] > 0) {
              vectors.add(new VectorFailures(vector, runOf.get(vector), count[0], count[1]));
            }
          });
      vectors.sort(
          Comparator.comparingInt(VectorFailures::failed)
              .reversed()
              .thenComparingLong(VectorFailures::vector));
      return vectors;
    }
  }
}
