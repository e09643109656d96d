package cardproof.cli;

import cardproof.log.FixtureUsed;
import cardproof.timing.pace.PacedTransition;
import java.util.List;
import java.util.OptionalDouble;

/**
 * What measured settle times allow, and what stands behind it.
 *
 * @param unit whose they are, in words
 * @param runs whose times were read
 * @param leftOut runs that are void
 * @param slowest transitions looked at, the slowest first; never empty
 * @param screenedUs longest settle when the transitions were chosen; 0 where that was not done now
 * @param missing transitions that were chosen and did not come about again
 * @param moved in how many transitions the card moved at all, over these runs
 * @param share of its settles that the longest of a run is to bound
 * @param wanted repeats in a run that this takes
 * @param powerCycles power-ons known of among the runs
 * @param conditions of the runs that have the slowest transition
 * @param path relays by way of which the slowest transition goes, where the wiring says so
 * @param guardPercent added on top, a guess
 * @param receiverUs what the receiving card needs
 * @param fixture what measured the newest of the runs
 */
record PaceFindings(
    String unit,
    List<Long> runs,
    List<Long> leftOut,
    List<PacedTransition> slowest,
    double screenedUs,
    int missing,
    int moved,
    double share,
    int wanted,
    int powerCycles,
    PaceConditions conditions,
    List<String> path,
    double guardPercent,
    long receiverUs,
    FixtureUsed fixture) {
  PaceFindings {
    runs = List.copyOf(runs);
    leftOut = List.copyOf(leftOut);
    slowest = List.copyOf(slowest);
    path = List.copyOf(path);
  }

  /** Whether each of the transitions chosen or looked at has a run with repeats enough. */
  boolean isBounded() {
    return slowest.stream().allMatch(t -> t.boundedRuns(share) > 0)
        && unsettled() == 0
        && missing == 0;
  }

  /** How many settles of these transitions were not seen to end. */
  int unsettled() {
    return slowest.stream().mapToInt(PacedTransition::unsettled).sum();
  }

  /** Power cycles that each bound the slowest transition, as far as the log knows of them. */
  int boundedCycles() {
    return Math.min(boundedRuns(), powerCycles);
  }

  /** Runs that each bound the slowest transition. */
  int boundedRuns() {
    return slowest.get(0).boundedRuns(share);
  }

  /** The longest settle of all, microseconds. */
  double longestUs() {
    return Math.max(screenedUs, slowest.get(0).largestUs());
  }

  double guardUs() {
    return longestUs() * guardPercent / 100;
  }

  /** From one clock edge to the next, microseconds; empty where nothing can be claimed. */
  OptionalDouble periodUs() {
    return isBounded()
        ? OptionalDouble.of(longestUs() + guardUs() + receiverUs)
        : OptionalDouble.empty();
  }
}
