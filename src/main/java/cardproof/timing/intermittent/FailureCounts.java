package cardproof.timing.intermittent;

import cardproof.log.BenchLog;
import cardproof.log.Verdict;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.LongPredicate;

/** How often each vector of a plan was judged and failed over some runs. */
final class FailureCounts {
  private final Map<Long, VectorFailures> byVector = new HashMap<>();

  static FailureCounts of(BenchLog log, List<Long> runs, LongPredicate which) {
    FailureCounts counts = new FailureCounts();
    for (long run : runs) {
      log.forEachVerdict(
          run,
          (vector, verdict) -> {
            if (which.test(vector) && isJudged(verdict)) {
              counts.take(run, vector, verdict.isFailure());
            }
          });
    }
    return counts;
  }

  static boolean isJudged(Verdict verdict) {
    return verdict == Verdict.PASS || verdict.isFailure();
  }

  private void take(long run, long vector, boolean failed) {
    byVector.merge(
        vector,
        new VectorFailures(vector, run, failed ? 1 : 0, 1),
        (so, one) ->
            new VectorFailures(
                vector, failed ? run : so.run(), so.failed() + one.failed(), so.judged() + 1));
  }

  /** Whether a vector failed each of several times it was judged. */
  boolean stands(long vector) {
    VectorFailures counts = byVector.get(vector);
    return counts.judged() > 1 && !counts.comesAndGoes();
  }

  /** The vectors that failed at least once, the most often failing first. */
  List<VectorFailures> failing() {
    List<VectorFailures> failing =
        new ArrayList<>(byVector.values().stream().filter(v -> v.failed() > 0).toList());
    failing.sort(
        Comparator.comparingInt(VectorFailures::failed)
            .reversed()
            .thenComparingLong(VectorFailures::vector));
    return failing;
  }
}
