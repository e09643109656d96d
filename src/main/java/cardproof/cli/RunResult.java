package cardproof.cli;

import cardproof.card.Line;
import cardproof.log.RunEnd;
import cardproof.log.StepTitle;
import cardproof.log.SweepRecord;
import cardproof.log.Verdict;
import cardproof.run.ClockComparison;
import cardproof.run.Failure;
import cardproof.run.RunEnding;
import cardproof.run.SupplyTally;
import cardproof.run.Tally;
import cardproof.text.Problem;
import cardproof.timing.SettleTable;
import java.util.List;
import java.util.Optional;

/**
 * All that is said about a run when it is over.
 *
 * @param runId in its bench log
 * @param board what answered
 * @param simulated whether no real card was driven
 * @param fromWiring whether the card on the simulated bench followed its wiring
 * @param failures the first ones, in full
 * @param settle by watched line and direction, and whether it can be relied on
 * @param sweeps what they found
 * @param steps titles of those that were begun
 * @param wallNs from arming to the last commit
 * @param supply lowest rail and highest current
 * @param missing coils and lamps that the current did not show
 * @param clocks the fixture's clock beside this computer's
 * @param waveProblem why there is less of a wave than was asked for
 */
record RunResult(
    RunSetup setup,
    long runId,
    String board,
    boolean simulated,
    boolean fromWiring,
    RunEnding ending,
    Tally tally,
    List<Failure> failures,
    SettleTable settle,
    List<SweepRecord> sweeps,
    List<StepTitle> steps,
    long wallNs,
    Optional<Problem> waveProblem,
    SupplyTally supply,
    List<String> missing,
    ClockComparison clocks) {
  /** What a simulated card's levels and times came from. */
  String simulatedFrom() {
    return fromWiring ? "wiring" : "behaviour";
  }

  /** Vectors that this run was to apply. */
  long planned() {
    return setup.check().vectors() - setup.from();
  }

  /** Vectors of the plan that have no verdict but "untested", recorded or not. */
  long untested() {
    return planned() - tally.judgedVectors() + tally.count(Verdict.UNTESTED);
  }

  List<Line> neverJudged() {
    return tally.neverJudged(setup.plan().card()).stream()
        .filter(line -> setup.earlier().filter(earlier -> earlier.judged(line)).isEmpty())
        .toList();
  }

  /** Every vector that was asked for passed, here or in the run that this one continues. */
  boolean passed() {
    return ending.end() == RunEnd.FINISHED
        && tally.failed() == 0
        && untested() == 0
        && setup.earlier().filter(earlier -> earlier.failed() > 0).isEmpty();
  }

  /** Every vector of the whole plan passed, and every watched line was judged in some of them. */
  boolean proved() {
    return passed() && !setup.partial() && missing.isEmpty() && neverJudged().isEmpty();
  }
}
