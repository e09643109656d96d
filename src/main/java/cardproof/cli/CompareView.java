package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.RunSummary;
import cardproof.timing.RunSettles;
import cardproof.timing.compare.LineShift;
import cardproof.timing.compare.TimeComparison;
import cardproof.timing.compare.VerdictComparison;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * What is to be said of runs before and after.
 *
 * @param sides the runs
 * @param fixtures that the runs were made on; where there are several nothing is claimed of times
 * @param leftOut runs whose settle times are void, on either side
 * @param verdicts over all runs of the sides
 * @param times over those that are not void; with no line where one side has none
 */
record CompareView(
    CompareSides sides,
    Set<UsedFixture> fixtures,
    List<RunSummary> leftOut,
    VerdictComparison verdicts,
    TimeComparison times) {
  static CompareView of(BenchLog log, CompareSides sides, LineChooser untouched) {
    List<RunSummary> leftOut = new ArrayList<>();
    List<Long> before = sound(log, sides.before(), leftOut);
    List<Long> after = sound(log, sides.after(), leftOut);
    Set<UsedFixture> fixtures = sides.fixtures(log);
    long lastRun = sides.after().get(sides.after().size() - 1).id();
    return new CompareView(
        sides,
        fixtures,
        leftOut,
        VerdictComparison.of(log, ids(sides.before()), ids(sides.after()), sides.match(log)),
        TimeComparison.of(
            log,
            before,
            after,
            fixtures.size() > 1 ? List.of() : alike(log, sides, fixtures),
            fixtures.stream().mapToLong(UsedFixture::samplingNs).max().orElseThrow(),
            untouched.among(log.lines(lastRun))));
  }

  /** Without an answer to how much runs differ no change is told. */
  private static List<List<Long>> alike(
      BenchLog log, CompareSides sides, Set<UsedFixture> fixtures) {
    return sides.alike().stream()
        .map(
            runs ->
                sound(log, runs, new ArrayList<>()).stream()
                    .filter(run -> fixtures.contains(UsedFixture.of(log, run)))
                    .toList())
        .toList();
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

  /** Whether no run before, or none after, has times that count. */
  boolean oneSideIsVoid() {
    return leftOut.containsAll(sides.before()) || leftOut.containsAll(sides.after());
  }

  /** Whether a vector fails that passed, be it now and then, or a line is slower. */
  boolean isWorse() {
    return !verdicts.worse().isEmpty()
        || !verdicts.sometimes().isEmpty()
        || times.changed().stream().anyMatch(line -> line.change() == LineShift.Change.SLOWER);
  }
}
