package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.Rework;
import cardproof.log.RunAsked;
import cardproof.log.RunDetail;
import cardproof.log.RunEnd;
import cardproof.log.RunFilter;
import cardproof.log.RunSummary;
import cardproof.log.UnitId;
import cardproof.log.Verdict;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import cardproof.timing.compare.VerdictComparison;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;

/**
 * Which runs are before and which after.
 *
 * @param before the earliest first
 * @param after the earliest first
 * @param rework what was done in between, where the log says so
 * @param alike groups of runs of the plan; between those of one group nothing was done
 */
record CompareSides(
    List<RunSummary> before,
    List<RunSummary> after,
    Optional<Rework> rework,
    List<List<RunSummary>> alike) {
  CompareSides {
    before = List.copyOf(before);
    after = List.copyOf(after);
    alike = List.copyOf(alike);
  }

  /** Two runs, by their numbers. */
  static CompareSides ofRuns(BenchLog log, Path file, long first, long second) {
    if (first == second) {
      throw new RefusedException(
          new Problem(
              file.toString(), "run " + first + " would be compared with itself", "two runs", ""));
    }
    RunSummary before = run(log, file, first);
    RunSummary after = run(log, file, second);
    UnitId one = before.unit();
    UnitId other = after.unit();
    if (!one.card().equals(other.card()) || one.simulated() != other.simulated()) {
      throw new RefusedException(
          new Problem(
              file.toString(),
              "run " + first + " is of " + one + ", and run " + second + " of " + other,
              "two runs of one card, both real or both simulated",
              "'cardproof log' lists them"));
    }
    Set<List<RunSummary>> alike = new LinkedHashSet<>();
    alike.add(likeThis(log, before));
    alike.add(likeThis(log, after));
    return new CompareSides(
        List.of(before), List.of(after), between(log, before, after), List.copyOf(alike));
  }

  /** The runs of a run's unit and plan between the reworks next to it. */
  private static List<RunSummary> likeThis(BenchLog log, RunSummary run) {
    List<Instant> reworks = log.reworks(run.unit()).stream().map(Rework::at).toList();
    return log.runs(RunFilter.of(run.unit())).stream()
        .filter(CompareSides::canBeUsed)
        .filter(other -> other.plan().equals(run.plan()))
        .filter(other -> epoch(reworks, other) == epoch(reworks, run))
        .toList();
  }

  private static long epoch(List<Instant> reworks, RunSummary run) {
    return reworks.stream().filter(at -> at.isBefore(run.started())).count();
  }

  private static Optional<Rework> between(BenchLog log, RunSummary before, RunSummary after) {
    return log.reworks(after.unit()).stream()
        .filter(r -> r.at().isAfter(before.started()) && r.at().isBefore(after.started()))
        .reduce((first, last) -> last);
  }

  private static RunSummary run(BenchLog log, Path file, long id) {
    RunSummary run =
        log.run(id).map(RunDetail::summary).orElseThrow(() -> LoggedRun.noSuchRun(file, id));
    if (!canBeUsed(run)) {
      throw new RefusedException(
          new Problem(
              file.toString(),
              run.end() == RunEnd.RUNNING
                  ? "run " + id + " is still going"
                  : "run " + id + " has no vector that was judged",
              "a run that has ended, with vectors",
              run.end() == RunEnd.RUNNING ? "Wait for its end" : ""));
    }
    return run;
  }

  private static boolean canBeUsed(RunSummary run) {
    return run.end() != RunEnd.RUNNING && run.vectors() > run.counts().get(Verdict.UNTESTED);
  }

  /**
   * The runs before and after a rework of a unit, as far as the reworks next to it.
   *
   * @param back 1 for the latest rework, 2 for the one before, and so on
   */
  static CompareSides ofRework(
      BenchLog log, Path file, UnitId unit, List<RunSummary> newestFirst, int back) {
    List<Rework> reworks = log.reworks(unit);
    if (reworks.size() < back) {
      throw new RefusedException(
          new Problem(
              file.toString(),
              reworks.isEmpty()
                  ? "no rework of " + unit + " is noted"
                  : Plural.of(reworks.size(), "rework") + " of " + unit + " are noted",
              back == 1 ? "a rework" : "at least " + back,
              "Note one with 'cardproof log --rework', or name two runs"));
    }
    int at = reworks.size() - back;
    Instant from = at == 0 ? Instant.MIN : reworks.get(at - 1).at();
    Instant rework = reworks.get(at).at();
    Instant to = at + 1 == reworks.size() ? Instant.MAX : reworks.get(at + 1).at();
    List<RunSummary> runs = new ArrayList<>(newestFirst);
    Collections.reverse(runs);
    runs.removeIf(run -> !canBeUsed(run));
    List<RunSummary> before =
        runs.stream()
            .filter(r -> !r.started().isBefore(from) && r.started().isBefore(rework))
            .toList();
    List<RunSummary> after =
        runs.stream()
            .filter(r -> !r.started().isBefore(rework) && r.started().isBefore(to))
            .toList();
    if (before.isEmpty() || after.isEmpty()) {
      throw new RefusedException(
          new Problem(
              file.toString(),
              "there is no run of "
                  + unit
                  + (before.isEmpty() ? " before" : " after")
                  + " the rework of "
                  + When.text(rework),
              "at least one on either side, better three",
              after.isEmpty() ? "Run the plan now" : ""));
    }
    return samePlan(before, after, reworks.get(at));
  }

  /** Where both sides have the plan that was run last, the runs of that alone. */
  private static CompareSides samePlan(
      List<RunSummary> before, List<RunSummary> after, Rework rework) {
    String plan = after.get(after.size() - 1).plan();
    List<RunSummary> same = before.stream().filter(run -> run.plan().equals(plan)).toList();
    if (same.isEmpty()) {
      return new CompareSides(before, after, Optional.of(rework), List.of(before, after));
    }
    List<RunSummary> now = after.stream().filter(run -> run.plan().equals(plan)).toList();
    return new CompareSides(same, now, Optional.of(rework), List.of(same, now));
  }

  /** By what a vector of one run is known in another. */
  VerdictComparison.Match match(BenchLog log) {
    Set<Set<String>> files = new HashSet<>();
    Set<List<List<String>>> steps = new HashSet<>();
    for (RunSummary run : both()) {
      files.add(new TreeSet<>(log.run(run.id()).orElseThrow().start().fileHashes().values()));
      RunAsked asked = log.asked(run.id());
      steps.add(List.of(asked.only(), asked.skip()));
    }
    if (files.size() > 1) {
      return VerdictComparison.Match.TRANSITION;
    }
    return steps.size() > 1 ? VerdictComparison.Match.PLACE : VerdictComparison.Match.NUMBER;
  }

  /**
   * The fixtures that the runs were made on. Another one has delays and a clock of its own; on the
   * simulated bench another copy of a card has another fixture.
   */
  Set<UsedFixture> fixtures(BenchLog log) {
    Set<UsedFixture> fixtures = new LinkedHashSet<>();
    both().forEach(run -> fixtures.add(UsedFixture.of(log, run.id())));
    return fixtures;
  }

  private List<RunSummary> both() {
    return Stream.concat(before.stream(), after.stream()).toList();
  }
}
