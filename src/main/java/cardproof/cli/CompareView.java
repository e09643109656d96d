package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.RunSummary;
import cardproof.timing.RunSettles;
import cardproof.timing.compare.LineShift;
import cardproof.timing.compare.TimeComparison;
import cardproof.timing.compare.VerdictComparison;
import java.util.ArrayList;
import java.util.List;

/**
 * What is to be said of runs before and after.
 *
 * @param sides the runs
 * @param leftOut runs whose settle times are void, on either side
 * @param verdicts over all runs of the sides
 * @param times over those that are not void; with no line where one side has none
 */
record CompareView(
    CompareSides sides,
    List<RunSummary> leftOut,
    VerdictComparison verdicts,
    TimeComparison times) {
  static CompareView of(BenchLog log, CompareSides sides, LineChooser untouched) {
    List<RunSummary> leftOut = new ArrayList<>();
    List<Long> before = sound(log, sides.before(), leftOut);
    List<Long> after = sound(log, sides.after(), leftOut);
    long lastRun = sides.after().get(sides.after().size() - 1).id();
    return new CompareView(
        sides,
        leftOut,
        VerdictComparison.of(log, ids(sides.before()), ids(sides.after()), sides.sameFiles(log)),
        TimeComparison.of(
            log,
            before,
            after,
            sides.alike().stream().map(runs -> sound(log, runs, new ArrayList<>())).toList(),
            sides.samplingNs(log),
            untouched.among(log.lines(lastRun))));
  }

  private static List<Long> ids(List<RunSummary> runs) {
    return runs.stream().map(RunSummary::id).toList();
  }

  private static List<Long> sound(BenchLog log, List<RunSummary> runs, List<RunSummary> leftOut) {
    List<Long> sound = new ArrayList<>();
    for (RunSummary run : runs) {
      if (RunSettles.isVoid(log, run.id())) {
        leftOut.add(run);
      } else {
        sound.add(run.id());
      }
    }
    return sound;
  }

  /** Whether a vector fails that passed, or a line is slower. */
  boolean isWorse() {
    return !verdicts.worse().isEmpty()
        || times.changed().stream().anyMatch(line -> line.change() == LineShift.Change.SLOWER);
  }
}
