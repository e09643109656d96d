package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.Rework;
import cardproof.log.RunEnd;
import cardproof.log.RunFilter;
import cardproof.log.RunSummary;
import cardproof.log.UnitId;
import cardproof.timing.RunSettles;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/**
 * The runs of a unit since its last rework.
 *
 * @param used those whose times count, the oldest first
 * @param voided those in which a card moved after it had been called settled
 * @param elsewhere those made on another fixture than the last of those used
 */
record DriftRuns(List<Long> used, List<Long> voided, List<Long> elsewhere) {
  static DriftRuns of(BenchLog log, UnitId unit) {
    List<Rework> reworks = log.reworks(unit);
    Instant from = reworks.isEmpty() ? Instant.MIN : reworks.get(reworks.size() - 1).at();
    List<Long> used = new ArrayList<>();
    List<Long> voided = new ArrayList<>();
    List<Long> elsewhere = new ArrayList<>();
    for (RunSummary run : log.runs(RunFilter.of(unit))) {
      if (run.started().isBefore(from) || run.end() == RunEnd.RUNNING) {
        continue;
      }
      if (RunSettles.isVoid(log, run.id())) {
        voided.add(run.id());
      } else if (used.isEmpty()
          || UsedFixture.of(log, run.id()).equals(UsedFixture.of(log, used.get(0)))) {
        used.add(run.id());
      } else {
        elsewhere.add(run.id());
      }
    }
    Collections.reverse(used);
    Collections.reverse(voided);
    Collections.reverse(elsewhere);
    return new DriftRuns(used, voided, elsewhere);
  }

  /** How many there are of whatever kind. */
  int all() {
    return used.size() + voided.size() + elsewhere.size();
  }
}
