package cardproof.cli;

import cardproof.card.Line;
import cardproof.log.RunEnd;
import cardproof.log.Verdict;
import cardproof.run.Failure;
import cardproof.run.RunEnding;
import cardproof.run.Tally;
import cardproof.timing.SettleRow;
import java.util.List;

/**
 * All that is said about a run when it is over.
 *
 * @param runId in its bench log
 * @param board what answered
 * @param simulated whether no real card was driven
 * @param failures the first ones, in full
 * @param settle by watched line and direction
 * @param wallNs from arming to the last commit
 */
record RunResult(
    RunSetup setup,
    long runId,
    String board,
    boolean simulated,
    RunEnding ending,
    Tally tally,
    List<Failure> failures,
    List<SettleRow> settle,
    long wallNs) {
  long planned() {
    return setup.check().vectors();
  }

  /** Vectors of the plan that have no verdict but "untested", recorded or not. */
  long untested() {
    return planned() - tally.judgedVectors() + tally.count(Verdict.UNTESTED);
  }

  List<Line> neverJudged() {
    return tally.neverJudged(setup.plan().card());
  }

  /** Every vector that was asked for passed. */
  boolean passed() {
    return ending.end() == RunEnd.FINISHED && tally.failed() == 0 && untested() == 0;
  }

  /** Every vector of the whole plan passed, and every watched line was judged in some of them. */
  boolean proved() {
    return passed() && !setup.partial() && neverJudged().isEmpty();
  }
}
