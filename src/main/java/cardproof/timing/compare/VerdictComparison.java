package cardproof.timing.compare;

import cardproof.log.BenchLog;
import cardproof.log.RunTransitions;
import cardproof.log.StepTitle;
import cardproof.log.VectorRecord;
import cardproof.log.Verdict;
import cardproof.timing.stats.McNemar;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;

/**
 * Vectors that passed before and fail now, or the other way round.
 *
 * @param match by what a vector was found again
 * @param common vectors that were judged on both sides
 * @param changes those whose verdict changed, in the order of the runs after
 * @param sometimes those that never failed before and do now, but not more often than not
 * @param missing vectors that were judged before and in none of the runs after
 * @param pValue McNemar's, exact: how likely so uneven a change is by chance
 */
public record VerdictComparison(
    Match match,
    int common,
    List<VerdictChange> changes,
    List<VerdictChange> sometimes,
    int missing,
    double pValue) {

  /** By what a vector of one run is found in another. */
  public enum Match {
    /** Its number: the same steps of the same files. */
    NUMBER,
    /** Where it is written: the same files, other steps of them. */
    PLACE,
    /** What was driven and seen before it and is driven then; nothing else tells in other files. */
    TRANSITION
  }

  private record Place(String file, int line, String title, String calledAt, long indexInStep) {}

  public VerdictComparison {
    changes = List.copyOf(changes);
    sometimes = List.copyOf(sometimes);
  }

  /** Compares runs of a log. */
  public static VerdictComparison of(
      BenchLog log, List<Long> before, List<Long> after, Match match) {
    Map<Object, Outcome> were = outcomes(log, before, match);
    Map<Object, Outcome> are = outcomes(log, after, match);
    int common = 0;
    List<VerdictChange> changes = new ArrayList<>();
    List<VerdictChange> sometimes = new ArrayList<>();
    for (Map.Entry<Object, Outcome> now : are.entrySet()) {
      Outcome was = were.get(now.getKey());
      if (was != null) {
        common++;
        VerdictChange change = new VerdictChange(was, now.getValue());
        if (was.fails() != now.getValue().fails()) {
          changes.add(change);
        } else if (was.failed() == 0 && now.getValue().failed() > 0) {
          sometimes.add(change);
        }
      }
    }
    int worse = (int) changes.stream().filter(VerdictChange::isWorse).count();
    return new VerdictComparison(
        match,
        common,
        changes,
        sometimes,
        were.size() - common,
        McNemar.pValue(worse, changes.size() - worse));
  }

  /** Vectors that passed before and fail now. */
  public List<VerdictChange> worse() {
    return changes.stream().filter(VerdictChange::isWorse).toList();
  }

  /** Vectors that failed before and pass now. */
  public List<VerdictChange> better() {
    return changes.stream().filter(change -> !change.isWorse()).toList();
  }

  private static Map<Object, Outcome> outcomes(BenchLog log, List<Long> runs, Match match) {
    Map<Object, Outcome> outcomes = new LinkedHashMap<>();
    for (long run : runs) {
      Function<VectorRecord, Optional<Object>> key = key(log, run, match);
      log.forEachVector(
          run,
          vector -> {
            boolean failed = vector.verdict().isFailure();
            if (failed || vector.verdict() == Verdict.PASS) {
              key.apply(vector)
                  .ifPresent(
                      name ->
                          outcomes.merge(
                              name,
                              new Outcome(run, vector.number(), failed ? 1 : 0, 1),
                              (so, one) -> so.and(failed)));
            }
          });
    }
    return outcomes;
  }

  /** What names a vector of a run; nothing where that is not known. */
  private static Function<VectorRecord, Optional<Object>> key(BenchLog log, long run, Match match) {
    return switch (match) {
      case NUMBER -> vector -> Optional.of(vector.number());
      case PLACE -> {
        Map<Integer, StepTitle> steps = new HashMap<>();
        log.run(run).orElseThrow().steps().forEach(step -> steps.put(step.step(), step));
        yield vector -> Optional.of(place(steps.get(vector.step()), vector.indexInStep()));
      }
      case TRANSITION -> {
        RunTransitions transitions = log.transitions(run);
        yield vector ->
            Optional.<Object>of(transitions.of(vector.number()))
                .filter(name -> !name.equals(RunTransitions.UNKNOWN));
      }
    };
  }

  private static Place place(StepTitle step, long indexInStep) {
    return new Place(step.file(), step.line(), step.title(), step.calledAt(), indexInStep);
  }
}
