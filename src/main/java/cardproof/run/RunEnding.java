package cardproof.run;

import cardproof.log.RunEnd;
import cardproof.text.Problem;
import java.util.Optional;

/**
 * How a run ended.
 *
 * @param why one sentence; empty when it went through to its end
 * @param problem what the user should be told to do, where something failed
 * @param mayReturn whether the fixture may be back in a moment, and the run go on with it
 */
public record RunEnding(RunEnd end, String why, Optional<Problem> problem, boolean mayReturn) {
  public RunEnding(RunEnd end, String why, Optional<Problem> problem) {
    this(end, why, problem, false);
  }

  static RunEnding finished() {
    return new RunEnding(RunEnd.FINISHED, "", Optional.empty());
  }
}
