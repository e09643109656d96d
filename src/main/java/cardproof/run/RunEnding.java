package cardproof.run;

import cardproof.log.RunEnd;
import cardproof.text.Problem;
import java.util.Optional;

/**
 * How a run ended.
 *
 * @param why one sentence; empty when it went through to its end
 * @param problem what the user should be told to do, where something failed
 */
public record RunEnding(RunEnd end, String why, Optional<Problem> problem) {
  static RunEnding finished() {
    return new RunEnding(RunEnd.FINISHED, "", Optional.empty());
  }
}
