package cardproof.timing.compare;

import cardproof.log.BenchLog;
import cardproof.log.RunTransitions;
import cardproof.log.VectorRecord;
import cardproof.log.Verdict;
import cardproof.timing.stats.McNemar;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToLongFunction;

/**
 * Vectors that passed before and fail now, or the other way round. Where plan and card are the same
 * a vector is the same by its number; else by its transition, since nothing else tells.
 *
 * @param byNumber whether vectors were matched by their number in the plan
 * @param common vectors that were judged on both sides
 * @param changes those whose verdict changed, in the order of the runs after
 * @param pValue McNemar's, exact: how likely so uneven a change is by chance
 */
public record VerdictComparison(
    boolean byNumber, int common, List<VerdictChange> changes, double pValue) {
  public VerdictComparison {
    changes = List.copyOf(changes);
  }

  /**
   * Compares runs of a log.
   *
   * @param byNumber whether plan and card are the same in all of them
   */
  public static VerdictComparison of(
      BenchLog log, List<Long> before, List<Long> after, boolean byNumber) {
    Map<Long, Outcome> were = outcomes(log, before, byNumber);
    Map<Long, Outcome> are = outcomes(log, after, byNumber);
    int common = 0;
    List<VerdictChange> changes = new ArrayList<>();
    for (Map.Entry<Long, Outcome> now : are.entrySet()) {
      Outcome was = were.get(now.getKey());
      if (was != null) {
        common++;
        if (was.fails() != now.getValue().fails()) {
          changes.add(new VerdictChange(was, now.getValue()));
        }
      }
    }
    int worse = (int) changes.stream().filter(VerdictChange::isWorse).count();
    return new VerdictComparison(
        byNumber, common, changes, McNemar.pValue(worse, changes.size() - worse));
  }

  /** Vectors that passed before and fail now. */
  public List<VerdictChange> worse() {
    return changes.stream().filter(VerdictChange::isWorse).toList();
  }

  /** Vectors that failed before and pass now. */
  public List<VerdictChange> better() {
    return changes.stream().filter(change -> !change.isWorse()).toList();
  }

  private static Map<Long, Outcome> outcomes(BenchLog log, List<Long> runs, boolean byNumber) {
    Map<Long, Outcome> outcomes = new LinkedHashMap<>();
    for (long run : runs) {
      RunTransitions transitions = log.transitions(run);
      ToLongFunction<VectorRecord> key =
          byNumber ? VectorRecord::number : vector -> transitions.of(vector.number());
      log.forEachVector(
          run,
          vector -> {
            boolean failed = vector.verdict().isFailure();
            boolean known = byNumber || key.applyAsLong(vector) != RunTransitions.UNKNOWN;
            if (known && (failed || vector.verdict() == Verdict.PASS)) {
              outcomes.merge(
                  key.applyAsLong(vector),
                  new Outcome(run, vector.number(), failed ? 1 : 0, 1),
                  (so, one) -> so.and(failed));
            }
          });
    }
    return outcomes;
  }
}
