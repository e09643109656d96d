package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.MovedLine;
import cardproof.log.RunDetail;
import cardproof.log.StepTitle;
import cardproof.log.VectorRecord;
import cardproof.log.Verdict;
import cardproof.text.Micros;
import cardproof.timing.stats.Proportion;
import com.google.gson.JsonObject;
import java.util.HashSet;
import java.util.Set;

/**
 * What came of sampling transitions at a dwell.
 *
 * @param unit whose card it was
 * @param run the run with the samples
 * @param transitions how many different ones
 * @param sampled vectors that were sampled
 * @param failed those that were not right by then, or still changed
 * @param longestUs last change of any line in them; infinite where one was not seen to end
 */
record PaceProof(
    String unit, long run, int transitions, int sampled, int failed, double longestUs) {
  private static final double CONFIDENCE = 0.95;

  /** Counts the vectors of the steps called transitions. */
  static PaceProof of(BenchLog log, long run, int transitions) {
    RunDetail detail = log.run(run).orElseThrow();
    Set<Integer> steps = new HashSet<>();
    for (StepTitle step : detail.steps()) {
      if (step.title().startsWith("transition ")) {
        steps.add(step.step());
      }
    }
    int[] counts = new int[2];
    double[] longestUs = new double[1];
    log.forEachVector(
        run,
        vector -> {
          boolean failed = vector.verdict().isFailure();
          if (steps.contains(vector.step()) && (failed || vector.verdict() == Verdict.PASS)) {
            counts[0]++;
            counts[1] += failed ? 1 : 0;
            longestUs[0] = Math.max(longestUs[0], settleUs(vector));
          }
        });
    return new PaceProof(
        detail.summary().unit().toString(), run, transitions, counts[0], counts[1], longestUs[0]);
  }

  private static double settleUs(VectorRecord vector) {
    double longestUs = 0;
    for (MovedLine moved : vector.moved()) {
      longestUs = Math.max(longestUs, moved.censored() ? Double.POSITIVE_INFINITY : moved.lastUs());
    }
    return longestUs;
  }

  /** At most so large a share fails. */
  double most() {
    return Proportion.upper(failed, sampled, CONFIDENCE);
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
      object.addProperty("mostFail", sampled == 0 ? null : most());
      screen.out().println(object);
    } else {
      screen.out().println(words(dwellUs, screen));
    }
    screen.out().flush();
    return failed == 0 && sampled > 0 ? ExitCode.PASSED : ExitCode.FAILED;
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
    return failed == 0
        ? screen.good("PROVED at " + Micros.text(dwellUs) + ": ")
            + at
            + ", none wrong: at most "
            + IntermittentWords.percent(most())
            + " of these transitions fail at this dwell in this session, at 95 % confidence."
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
