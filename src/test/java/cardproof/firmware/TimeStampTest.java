package cardproof.firmware;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.firmware.ChipBench.Edge;
import cardproof.link.MovedWatch;
import cardproof.link.Result;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What the firmware says of times, held against the edges at the chip's pins. */
class TimeStampTest {
  private static final int MOVES = 1_000;
  private static final int LINES = 6;
  private static final double MOST_OF_95_US = 5;
  private static final double MOST_US = 15;

  @TempDir private Path folder;

  @ParameterizedTest
  @CsvSource({"M2560, 0", "M2560, 4", "M328P, 0", "M328P, 4"})
  void firstAndLastChangesAreThoseOfThePins(Chip chip, int bounces) {
    long seed = System.nanoTime();
    SplittableRandom random = new SplittableRandom(seed);
    List<BitSet> drives = new ArrayList<>();
    for (int step = 0, moves = 0; moves < MOVES; step++) {
      BitSet on = step == 0 ? new BitSet() : (BitSet) drives.get(step - 1).clone();
      BitSet before = (BitSet) on.clone();
      do {
        on.flip(random.nextInt(LINES));
      } while (on.equals(before) || random.nextInt(3) == 0);
      drives.add(on);
      before.xor(on);
      moves += before.cardinality();
    }
    try (ChipBench bench =
            ChipBench.start(chip, new BouncingPins(LINES, bounces, seed), folder);
        StepsOnChip host = new StepsOnChip(bench.port())) {
      host.arm(200, 1_000, 10_000);
      List<Result> results = host.run(drives.size(), drives::get, LINES, 12_000, 1_500);
      List<Edge> edges = bench.edges();
      Errors first = new Errors();
      Errors last = new Errors();
      PinTruth truth = PinTruth.of(edges, drives);
      for (int step = 0; step < results.size(); step++) {
        for (MovedWatch moved : results.get(step).moved()) {
          List<Long> flips = truth.flips(step, moved.watch());
          first.add(moved.firstUs() - truth.us(step, flips.get(0)));
          last.add(moved.lastUs() - truth.us(step, flips.get(flips.size() - 1)));
        }
      }
      System.out.printf(
          "%s, up to %d bounces, seed %d: %d moves, first %s, last %s; period %d ns, blind %d us; %s%n",
          chip, bounces, seed, first.count(), first, last, host.hello().periodNs(), host.hello().blindUs(), bench.stats() + " " + host.link().status().framesDamaged() + " damaged " + host.link().counters());
    }
  }
  static final class Errors {
    final List<Double> all = new ArrayList<>();
    void add(double e) { all.add(e); }
    int count() { return all.size(); }
    public String toString() {
      double[] s = all.stream().mapToDouble(Double::doubleValue).sorted().toArray();
      double[] a = all.stream().mapToDouble(Math::abs).sorted().toArray();
      return String.format("median %.1f, p95 %.1f, worst %.1f, least %.1f, most %.1f us", s[s.length/2], a[(int)(a.length*0.95)], a[a.length-1], s[0], s[s.length-1]);
    }
  }
}
