package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.MovedLine;
import cardproof.log.RunDetail;
import cardproof.log.RunTransitions;
import cardproof.log.StepTitle;
import cardproof.log.VectorRecord;
import cardproof.log.Verdict;
import cardproof.text.Micros;
import cardproof.timing.stats.Proportion;
import com.google.gson.JsonObject;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;

/**
 * What came of sampling transitions at a dwell.
 *
 * @param unit whose card it was
 * @param run the run with the samples
 * @param transitions how many different ones
 * @param missing those of them that did not come about again
 * @param sampled vectors that were sampled
 * @param least samples of the transition that has fewest
 * @param failed those that were not right by then, or still changed
 * @param longestUs last change of any line in them; infinite where one was not seen to end
 */
record PaceProof(
    String unit,
    long run,
    int transitions,
    int missing,
    int sampled,
    int least,
    int failed,
    double longestUs) {
  private static final double CONFIDENCE = 0.95;

  /** Counts the samples of the transitions that were chosen, as far as they came about again. */
  static PaceProof of(BenchLog log, long run, Set<Long> chosen) {
    RunDetail detail = log.run(run).orElseThrow();
    Set<Integer> steps = new HashSet<>();
    for (StepTitle step : detail.steps()) {
      if (step.title().startsWith("transition ")) {
        steps.add(step.step());
      }
    }
    RunTransitions transitions = log.transitions(run);
    Map<Long, Integer> samples = new HashMap<>();
    int[] failed = new int[1];
    double[] longestUs = new double[1];
    log.forEachVector(
        run,
        vector -> {
          boolean wrong = vector.verdict().isFailure();
          long transition = transitions.of(vector.number());
          boolean judged = wrong || vector.verdict() == Verdict.PASS;
          if (steps.contains(vector.step()) && judged && chosen.contains(transition)) {
            samples.merge(transition, 1, Integer::sum);
            failed[0] += wrong ? 1 : 0;
            longestUs[0] = Math.max(longestUs[0], settleUs(vector));
          }
        });
    return new PaceProof(
        detail.summary().unit().toString(),
        run,
        chosen.size(),
        chosen.size() - samples.size(),
        samples.values().stream().mapToInt(Integer::intValue).sum(),
        samples.values().stream().mapToInt(Integer::intValue).min().orElse(0),
        failed[0],
        longestUs[0]);
  }

  private static double settleUs(VectorRecord vector) {
    double longestUs = 0;
    for (MovedLine moved : vector.moved()) {
      longestUs = Math.max(longestUs, moved.censored() ? Double.POSITIVE_INFINITY : moved.lastUs());
    }
    return longestUs;
  }

  /** At most so large a share of each transition fails, when none did. */
  double most() {
    return Proportion.upper(0, least, CONFIDENCE);
  }

  private boolean proved() {
    return failed == 0 && missing == 0 && least > 0;
  }

  /** Says it, and gives the exit code. */
  int tell(long dwellUs, boolean json, Screen screen) {
    if (json) {
      JsonObject object = new JsonObject();
      object.addProperty("unit", unit);
      object.addProperty("run", run);
      object.addProperty("dwellUs", dwellUs);
      object.addProperty("transitions", transitions);
      object.addProperty("sampled", sampled);
      object.addProperty("failed", failed);
      object.addProperty("longestUs", Double.isInfinite(longestUs) ? null : longestUs);
      object.addProperty("missing", missing);
      object.addProperty("mostFail", proved() ? most() : null);
      screen.out().println(object);
    } else {
      screen.out().println(words(dwellUs, screen));
    }
    screen.out().flush();
    return proved() ? ExitCode.PASSED : ExitCode.FAILED;
  }

  private String words(long dwellUs, Screen screen) {
    String at =
        Plural.of(sampled, "sample")
            + " at "
            + Micros.text(dwellUs)
            + " of the slowest "
            + Plural.of(transitions, "transition")
            + " of "
            + unit
            + " (run "
            + run
            + ")";
    if (missing > 0 && failed == 0) {
      return screen.bad("NOT PROVED: ")
          + at
          + "; "
          + Plural.of(missing, "transition")
          + " did not come about again as when they were chosen: before them the card showed"
          + " something else.";
    }
    return failed == 0
        ? screen.good("PROVED at " + Micros.text(dwellUs) + ": ")
            + at
            + ", none wrong: at most "
            + IntermittentWords.percent(most())
            + " of each of these transitions fail at this dwell in this session, at 95 % confidence."
        : screen.bad("NOT at " + Micros.text(dwellUs) + ": ")
            + at
            + ", "
            + failed
            + " not right by then or still changing. "
            + (Double.isInfinite(longestUs)
                ? "Some had not come to rest when watching ended."
                : "The longest took "
                    + Micros.text(Math.round(longestUs))
                    + "; a line has to be still for a millisecond before it is sampled.");
  }
}
