package cardproof.firmware;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.link.Edge;
import cardproof.link.LinkEvent;
import cardproof.link.MovedWatch;
import cardproof.link.Result;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * What the firmware says of times, held against the edges at the chip's pins while its line carries
 * results without a pause.
 */
class TimeStampTest {
  private static final int MOVES = 1_000;
  private static final int LINES = 6;
  private static final long WATCH_US = 12_000;
  private static final long QUIET_US = 1_500;
  private static final int MOST_BOUNCES = 4;

  /** The chip is never done with its line: see {@link FullLoadTest}. */
  private static final double BUSY_AT_LEAST = 0.35;

  @TempDir private Path folder;

  /** Patterns in which lines of the card move so often in all, none twice in a row. */
  private static List<BitSet> patterns(int moves, SplittableRandom random) {
    List<BitSet> patterns = new ArrayList<>();
    BitSet on = new BitSet();
    for (int made = 0; made < moves; ) {
      BitSet before = (BitSet) on.clone();
      do {
        on.flip(random.nextInt(LINES));
      } while (on.equals(before) || random.nextInt(3) == 0);
      patterns.add((BitSet) on.clone());
      before.xor(on);
      made += before.cardinality();
    }
    return patterns;
  }

  @ParameterizedTest
  @CsvSource({"M2560, 0", "M2560, 4", "M328P, 0", "M328P, 4", "M328P_SHIFT, 0", "M328P_SHIFT, 4"})
  void firstAndLastChangesAreThoseOfThePins(Chip chip, int bounces) {
    stamps(chip, bounces, 20_261_125);
  }

  @Tag("long")
  @ParameterizedTest
  @CsvSource({"M2560, 0", "M2560, 4", "M328P, 0", "M328P, 4"})
  void whateverTheSeed(Chip chip, int bounces) {
    for (int run = 0; run < 15; run++) {
      stamps(chip, bounces, System.nanoTime());
    }
  }

  private void stamps(Chip chip, int bounces, long seed) {
    List<BitSet> patterns = patterns(MOVES, new SplittableRandom(seed));
    try (ChipBench bench =
            ChipBench.inStep(chip, new BouncingPins(Lines.of(chip), bounces, seed), folder);
        StepsOnChip host = new StepsOnChip(bench)) {
      host.arm(200, 1_000, 10_000);
      List<Result> results =
          host.run(patterns.size(), patterns::get, Lines.of(chip), WATCH_US, QUIET_US);
      PinTruth truth = PinTruth.of(bench.edges(), patterns);
      double leastUs = host.hello().periodNs() / 1000.0 + host.hello().blindUs();
      long seen = 0;
      Deviations first = new Deviations();
      Deviations last = new Deviations();
      for (int step = 0; step < results.size(); step++) {
        for (MovedWatch moved : results.get(step).moved()) {
          List<Long> flips = truth.flips(step, moved.watch());
          first.add(moved.firstUs() - truth.us(step, flips.get(0)));
          last.add(moved.lastUs() - truth.us(step, flips.get(flips.size() - 1)));
          long tooShort = truth.shorterThan(leastUs, flips);
          assertThat(moved.changes())
              .as("seed %d, step %d, watch %d: changes seen", seed, step, moved.watch())
              .isBetween((int) (flips.size() - 2 * tooShort), flips.size());
          seen += moved.changes();
        }
      }
      Map<String, Long> stats = bench.stats();
      System.out.printf(
          "%s, up to %d bounces, seed %d: %d moves, %d changes, first %s, last %s, line busy %.0f %%%n",
          chip,
          bounces,
          seed,
          first.count(),
          seen,
          first,
          last,
          64_000.0 * stats.get("sent") / stats.get("cycle"));
      assertThat(640.0 * stats.get("sent") / stats.get("cycle")).isGreaterThan(BUSY_AT_LEAST);
      assertThat(first.count()).isGreaterThanOrEqualTo(MOVES);
      boolean byLoop = chip == Chip.M328P_SHIFT;
      assertThat(first.share(0.95)).isLessThanOrEqualTo(byLoop ? 40 : 5);
      assertThat(last.share(0.95)).isLessThanOrEqualTo(byLoop ? 40 : 5);
      if (!byLoop || bounces == 0) { // bounces may be shorter than what such a board is sure to see
        assertThat(first.worst()).isLessThanOrEqualTo(byLoop ? leastUs : 15);
        assertThat(last.worst()).isLessThanOrEqualTo(byLoop ? leastUs : 15);
      }
      assertThat(stats.get("overruns")).isZero();
      assertThat(host.link().status().framesDamaged()).isZero();
      int published = host.hello().blindUs();
      System.out.printf(
          "%s: at most %d us between two samples%n",
          chip, results.stream().mapToInt(Result::blindUs).max().orElseThrow());
      assertThat(results).allSatisfy(r -> assertThat(r.blindUs()).isLessThanOrEqualTo(published));
    }
  }

  /** A level that a line keeps for a sampling period and the longest blind time is always seen. */
  @ParameterizedTest
  @EnumSource(mode = EnumSource.Mode.EXCLUDE, names = "M328P_SHIFT") // keeps no edges
  void noPulseLongerThanThePublishedLeastIsMissed(Chip chip) {
    long seed = 20_261_126;
    List<BitSet> patterns = patterns(350, new SplittableRandom(seed));
    try (ChipBench bench =
            ChipBench.inStep(chip, new BouncingPins(Lines.of(chip), MOST_BOUNCES, seed), folder);
        StepsOnChip host = new StepsOnChip(bench)) {
      host.arm(200, 1_000, 10_000);
      double leastUs = host.hello().periodNs() / 1000.0 + host.hello().blindUs();
      List<LinkEvent.ResultArrived> seen = new ArrayList<>();
      for (BitSet pattern : patterns) {
        seen.add(host.captured(pattern, Lines.of(chip), WATCH_US, QUIET_US));
      }
      PinTruth truth = PinTruth.of(bench.edges(), patterns);
      int pulses = 0;
      for (int step = 0; step < patterns.size(); step++) {
        assertThat(seen.get(step).edges().unkept()).isZero();
        for (int watch : Lines.of(chip).watchOfDrive()) {
          pulses += checkPulses(truth, step, watch, seen.get(step), leastUs, seed);
        }
      }
      System.out.printf("%s, seed %d: %d pulses of %.1f us or more%n", chip, seed, pulses, leastUs);
      assertThat(pulses).isGreaterThan(MOVES);
    }
  }

  private static int checkPulses(
      PinTruth truth,
      int step,
      int watch,
      LinkEvent.ResultArrived seen,
      double leastUs,
      long seed) {
    List<Long> flips = truth.flips(step, watch);
    List<Edge> edges = seen.edges().edges().stream().filter(edge -> edge.watch() == watch).toList();
    boolean level = seen.result().before().get(watch);
    int pulses = 0;
    for (int i = 0; i + 1 < flips.size(); i++) {
      level = !level;
      double fromUs = truth.us(step, flips.get(i));
      double toUs = truth.us(step, flips.get(i + 1));
      if (toUs - fromUs >= leastUs) {
        boolean wanted = level;
        assertThat(edges)
            .as(
                "seed %d, step %d, watch %d: %s from %.1f to %.1f",
                seed, step, watch, level, fromUs, toUs)
            .anyMatch(
                edge ->
                    edge.level() == wanted && edge.atUs() > fromUs - 6 && edge.atUs() < toUs + 15);
        pulses++;
      }
    }
    return pulses;
  }
}
