package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.Rework;
import cardproof.log.RunSummary;
import cardproof.log.UnitId;
import cardproof.timing.intermittent.FailureHistory;
import cardproof.timing.intermittent.VectorFailures;
import java.io.PrintWriter;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/** What the runs of one unit say of failures that come and go, plan by plan, before and after. */
final class UnitFailures {
  private final BenchLog log;
  private final Screen screen;
  private final PrintWriter out;

  UnitFailures(BenchLog log, Screen screen) {
    this.log = log;
    this.screen = screen;
    this.out = screen.out();
  }

  /**
   * @param runs of the unit, newest first
   */
  void print(UnitId unit, List<RunSummary> runs) {
    List<Rework> reworks = log.reworks(unit);
    Optional<Rework> last =
        reworks.isEmpty() ? Optional.empty() : Optional.of(reworks.get(reworks.size() - 1));
    List<RunSummary> oldestFirst = new ArrayList<>(runs);
    Collections.reverse(oldestFirst);
    for (String plan : oldestFirst.stream().map(RunSummary::plan).distinct().toList()) {
      List<RunSummary> ofPlan =
          oldestFirst.stream().filter(run -> run.plan().equals(plan)).toList();
      if (last.isPresent()) {
        sinceRework(plan, ofPlan, last.get(), reworks);
      } else if (ofPlan.size() > 1) {
        out.println();
        out.println(screen.strong("over the runs of " + plan));
        say(FailureHistory.of(log, ofPlan));
      }
    }
  }

  private void sinceRework(
      String plan, List<RunSummary> runs, Rework rework, List<Rework> reworks) {
    Instant before = reworks.size() > 1 ? reworks.get(reworks.size() - 2).at() : Instant.MIN;
    List<RunSummary> earlier =
        runs.stream()
            .filter(run -> run.started().isAfter(before) && run.started().isBefore(rework.at()))
            .toList();
    List<RunSummary> later =
        runs.stream().filter(run -> !run.started().isBefore(rework.at())).toList();
    if (later.isEmpty()) {
      return;
    }
    out.println();
    out.println(
        screen.strong(
            "over the runs of " + plan + " since the rework of " + When.text(rework.at())));
    FailureHistory after = FailureHistory.of(log, later);
    say(after);
    FailureHistory was = FailureHistory.of(log, earlier);
    if (was.failed() > 0) {
      // a vector that never failed tells nothing of a fault that it does not show
      Set<Long> showing =
          was.vectors().stream()
              .filter(VectorFailures::comesAndGoes)
              .map(VectorFailures::vector)
              .collect(Collectors.toSet());
      out.println(
          IntermittentWords.repaired(
              FailureHistory.of(log, earlier, showing::contains),
              FailureHistory.of(log, later, showing::contains)));
    }
  }

  private void say(FailureHistory history) {
    IntermittentWords.of(history, log).forEach(out::println);
  }
}
