package cardproof.timing.compare;

import cardproof.log.BenchLog;
import cardproof.log.LineName;
import cardproof.timing.Quantiles;
import cardproof.timing.stats.Holm;
import cardproof.timing.stats.PairedShift;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.Predicate;

/**
 * Settle times before and after, paired by transition: each pair is the median of the repeats on
 * either side. Per line and direction the Hodges-Lehmann shift with a simultaneous interval and
 * Wilcoxon's test, adjusted by Holm. A change is told where the test says so and the whole interval
 * for these runs lies beyond the margin. What is told of it has an interval that also holds what
 * runs differ by.
 *
 * @param lines by line and direction, in the card's order
 * @param spreadUs standard deviation between runs to which nothing was done, all lines together;
 *     empty where no two of them are there, and then no change is told
 * @param commonUs median of the shifts of all lines that have one: printed, not taken off; empty
 *     where no line has one
 * @param removedUs what was taken off each shift before it was held against the margin: the shift
 *     of the lines named as untouched; 0 where none were
 */
public record TimeComparison(
    List<LineShift> lines, OptionalDouble spreadUs, OptionalDouble commonUs, double removedUs) {
  /** Of all intervals of one comparison together. */
  public static final double CONFIDENCE = 0.95;

  public TimeComparison {
    lines = List.copyOf(lines);
  }

  /**
   * Compares runs of a log.
   *
   * @param before runs whose times are not void
   * @param after likewise
   * @param alike groups of runs of the unit; between those of one group nothing was done
   * @param samplingNs the longest sampling period among them
   * @param untouched lines that whatever was done in between cannot have touched
   */
  public static TimeComparison of(
      BenchLog log,
      List<Long> before,
      List<Long> after,
      List<List<Long>> alike,
      long samplingNs,
      Predicate<LineName> untouched) {
    RunSpread spread = new RunSpread();
    alike.forEach(runs -> spread.add(each(log, runs)));
    return of(
        RunTimes.of(log, before),
        RunTimes.of(log, after),
        Margin.of(samplingNs, spread, Math.max(1, before.size()), Math.max(1, after.size())),
        untouched);
  }

  private static List<RunTimes> each(BenchLog log, List<Long> runs) {
    return runs.size() < 2
        ? List.of()
        : runs.stream().map(run -> RunTimes.of(log, List.of(run))).toList();
  }

  static TimeComparison of(
      RunTimes before, RunTimes after, Margin margin, Predicate<LineName> untouched) {
    Map<Way, Pairs> pairs = new LinkedHashMap<>();
    after
        .ways()
        .forEach(
            (way, line) -> {
              Pairs of = Pairs.of(line, before.medians(way), after.medians(way));
              if (before.ways().containsKey(way)) {
                pairs.put(way, of);
              }
            });
    List<Way> told = pairs.keySet().stream().filter(way -> pairs.get(way).n() > 0).toList();
    double each = 1 - (1 - CONFIDENCE - Margin.BY_CHANCE) / Math.max(1, told.size());
    List<PairedShift> shifts =
        told.stream().map(way -> PairedShift.of(pairs.get(way).differencesUs(), each)).toList();
    double[] adjusted = Holm.adjusted(shifts.stream().mapToDouble(PairedShift::pValue).toArray());
    double removedUs = removed(pairs, untouched);
    List<LineShift> lines = new ArrayList<>();
    for (int i = 0; i < told.size(); i++) {
      Pairs of = pairs.get(told.get(i));
      lines.add(
          new LineShift(
              of.line(),
              told.get(i).endsHigh(),
              shifts.get(i),
              shifts.get(i).low() - margin.runsUs(told.get(i)),
              shifts.get(i).high() + margin.runsUs(told.get(i)),
              tenth(of.differencesUs(), shifts.get(i).estimate() < 0),
              adjusted[i],
              margin.us(told.get(i)),
              of.unsettledBefore(),
              of.unsettledAfter(),
              change(shifts.get(i), adjusted[i], margin.us(told.get(i)), removedUs)));
    }
    return new TimeComparison(lines, margin.spreadUs(), common(lines), removedUs);
  }

  private static LineShift.Change change(
      PairedShift shift, double adjustedP, double marginUs, double removedUs) {
    if (Double.isInfinite(marginUs)) {
      return LineShift.Change.NO_MARGIN;
    }
    if (Double.isInfinite(shift.low()) || Double.isInfinite(shift.high())) {
      return LineShift.Change.TOO_FEW;
    }
    if (adjustedP >= 1 - CONFIDENCE) {
      return LineShift.Change.NONE;
    }
    if (shift.low() - removedUs > marginUs) {
      return LineShift.Change.SLOWER;
    }
    return shift.high() - removedUs < -marginUs ? LineShift.Change.FASTER : LineShift.Change.NONE;
  }

  private static double tenth(double[] differencesUs, boolean faster) {
    return Quantiles.of(differencesUs.clone(), 0, differencesUs.length, faster ? 0.1 : 0.9)[0];
  }

  private static double removed(Map<Way, Pairs> pairs, Predicate<LineName> untouched) {
    double[] all =
        pairs.values().stream()
            .filter(of -> untouched.test(of.line()))
            .flatMapToDouble(of -> Arrays.stream(of.differencesUs()))
            .toArray();
    return all.length == 0 ? 0 : PairedShift.of(all, CONFIDENCE).estimate();
  }

  private static OptionalDouble common(List<LineShift> lines) {
    List<Double> shifts = lines.stream().map(line -> line.shift().estimate()).toList();
    return shifts.isEmpty() ? OptionalDouble.empty() : OptionalDouble.of(RunTimes.median(shifts));
  }

  private double mostUs(LineShift line) {
    return Math.max(Math.abs(line.lowUs() - removedUs), Math.abs(line.highUs() - removedUs));
  }

  /** Lines and directions that changed beyond the margin. */
  public List<LineShift> changed() {
    return lines.stream()
        .filter(
            line ->
                line.change() == LineShift.Change.SLOWER
                    || line.change() == LineShift.Change.FASTER)
        .toList();
  }

  /**
   * A change of so much or more, of a line that is not told as changed, would have been seen,
   * microseconds; empty where no line has pairs enough.
   */
  public OptionalDouble visibleUs() {
    return lines.stream()
        .filter(line -> line.change() == LineShift.Change.NONE)
        .mapToDouble(line -> Math.max(line.marginUs(), mostUs(line)))
        .max();
  }
}
