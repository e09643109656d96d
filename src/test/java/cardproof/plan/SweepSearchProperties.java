package cardproof.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Random;
import java.util.function.BiPredicate;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;

/** The search for edges, on lines that are nothing but an edge. */
class SweepSearchProperties {
  private static Sweep sweep(SweepRange range, int lines) {
    return new Sweep(
        SweepKind.HOLD,
        Target.bus(0),
        Optional.empty(),
        Target.bus(1),
        false,
        range,
        OptionalLong.empty(),
        Sweep.usualPoints(range, lines),
        100_000,
        new Timing(1, new long[2], 1, 2));
  }

  /**
   * @param works by line and index of the time
   */
  private static SweepSearch searched(Sweep sweep, int lines, BiPredicate<Integer, Integer> works) {
    SweepSearch search = new SweepSearch(sweep);
    for (int point = 0; point < sweep.points(); point++) {
      int index = search.next();
      for (int line = 0; line < lines; line++) {
        search.series(line).take(index, works.test(line, index));
      }
    }
    return search;
  }

  /** With both ways of each line, as many edges as the points were reckoned for, twice over. */
  @Property(tries = 200)
  void everyEdgeIsFoundToTheResolutionAndTriedAgain(
      @ForAll long seed,
      @ForAll @IntRange(min = 2, max = 1000) int steps,
      @ForAll @IntRange(min = 1, max = 16) int lines) {
    SweepRange range = new SweepRange(-steps * 250L, 0, 250);
    Random random = new Random(seed);
    List<Integer> edges = new ArrayList<>();
    for (int line = 0; line < lines; line++) {
      edges.add(1 + random.nextInt(steps));
    }
    Sweep sweep = sweep(range, lines);
    SweepSearch search = searched(sweep, lines, (line, index) -> index >= edges.get(line));
    for (int line = 0; line < lines; line++) {
      SweepSeries series = search.series(line);
      assertThat(series.shortestWorked()).hasValue(edges.get(line));
      assertThat(series.longestFailed()).hasValue(edges.get(line) - 1);
      assertThat(series.workedAt(edges.get(line))).isGreaterThanOrEqualTo(2);
      assertThat(series.trials()).isEqualTo(sweep.points());
    }
  }

  /** Relays scatter: what always worked lies above every failure, whatever the order. */
  @Property(tries = 200)
  void aScatteredEdgeIsTakenAtItsWorst(
      @ForAll long seed, @ForAll @IntRange(min = 1, max = 20) int scatter) {
    SweepRange range = new SweepRange(0, 100_000, 500);
    Random random = new Random(seed);
    Sweep sweep = sweep(range, 6);
    SweepSearch search =
        searched(sweep, 6, (line, index) -> index >= 80 + 5 * line + random.nextInt(scatter));
    for (int line = 0; line < 6; line++) {
      SweepSeries series = search.series(line);
      int worked = series.shortestWorked().orElseThrow();
      int failed = series.longestFailed().orElseThrow();
      // a failure among the very last points may leave the interval above it open
      assertThat(failed).isLessThan(Math.min(worked, 80 + 5 * line + scatter));
      assertThat(worked - failed).isLessThanOrEqualTo(16);
      assertThat(worked).isGreaterThanOrEqualTo(80 + 5 * line);
      assertThat(series.everWorked().orElseThrow()).isLessThanOrEqualTo(worked);
    }
  }

  /** A window in which it works by chance, wider than a coarse step, is not taken for the edge. */
  @Property(tries = 100)
  void aLineThatWorksByTurnsIsFoundOut(@ForAll @IntRange(min = 20, max = 60) int from) {
    SweepRange range = new SweepRange(0, 100_000, 500);
    SweepSearch search =
        searched(
            sweep(range, 1),
            1,
            (line, index) -> index >= 150 || index >= from && index < from + 20);
    SweepSeries series = search.series(0);
    assertThat(series.shortestWorked()).hasValue(150);
    assertThat(series.longestFailed()).hasValue(149);
    assertThat(series.everWorked().orElseThrow()).isBetween(from, from + 20);
  }

  @Property
  void theTimesOfARangeEndWhereItEnds(
      @ForAll @IntRange(min = -5_000, max = 5_000) int fromUs,
      @ForAll @IntRange(min = 1, max = 5_000) int span,
      @ForAll @IntRange(min = 1, max = 700) int resolution) {
    SweepRange range = new SweepRange(fromUs, fromUs + span, resolution);
    assertThat(range.atUs(range.count() - 1)).isEqualTo(fromUs + span);
    assertThat(range.atUs(0)).isBetween((long) fromUs, fromUs + resolution - 1L);
    int index = range.firstFrom(fromUs + span / 2);
    assertThat(range.atUs(index)).isGreaterThanOrEqualTo(fromUs + span / 2);
    assertThat(index == 0 || range.atUs(index - 1) < fromUs + span / 2).isTrue();
    List<Integer> coarse = sweep(range, 1).coarse();
    assertThat(coarse).hasSize(Sweep.leastPoints(range) - 1).contains(0, range.count() - 1);
  }

  /** Lines that never work, or always do, leave nothing to be searched. */
  @Property(tries = 20)
  void withNoEdgeTheWholeRangeIsTriedAgain(@ForAll boolean works) {
    SweepRange range = new SweepRange(0, 100_000, 500);
    SweepSearch search = searched(sweep(range, 3), 3, (line, index) -> works);
    assertThat(search.series(0).shortestWorked().isPresent()).isEqualTo(works);
    assertThat(search.series(0).longestFailed().isPresent()).isEqualTo(!works);
    assertThat(new SweepSearch(sweep(range, 1)).series(0).shortestWorked()).isEmpty();
  }
}
