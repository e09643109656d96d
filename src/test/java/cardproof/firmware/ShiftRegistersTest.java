package cardproof.firmware;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cardproof.firmware.ChipBench.Edge;
import cardproof.link.LinkEvent;
import java.nio.file.Path;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The build with shift registers: how often it samples, counted at the registers' own load pin with
 * an SPI of eight clocks of two cycles a byte, and that nothing is put out that was not asked for,
 * though registers hold noise when power comes.
 */
class ShiftRegistersTest {
  private static final long SECOND_CYCLES = 16_000_000;
  private static final double NS_PER_CYCLE = 62.5;

  @TempDir private Path folder;

  private ChipBench bench() {
    return ChipBench.inStep(
        Chip.M328P_SHIFT, new BouncingPins(Lines.of(Chip.M328P_SHIFT), 0, 1), folder);
  }

  @Test
  void samplesAsOftenAsHelloSays() {
    try (ChipBench bench = bench();
        StepsOnChip host = new StepsOnChip(bench)) {
      Map<String, Long> before = bench.stats();
      bench.go(before.get("cycle") + SECOND_CYCLES, new byte[0]);
      Map<String, Long> after = bench.stats();
      double periodNs =
          NS_PER_CYCLE
              * (after.get("cycle") - before.get("cycle"))
              / (after.get("loads") - before.get("loads"));
      double longestUs = NS_PER_CYCLE / 1000 * after.get("longest");
      System.out.printf("idle: a sample every %.0f ns, at most %.1f us%n", periodNs, longestUs);
      assertThat(periodNs).isCloseTo(host.hello().periodNs(), within(500.0));
      assertThat(longestUs).isLessThanOrEqualTo(host.hello().blindUs());
    }
  }

  /** Two samples are never farther apart than is published, while the line is full. */
  @Test
  void isNotBlindForLongerThanHelloSays() {
    try (ChipBench bench = bench();
        StepsOnChip host = new StepsOnChip(bench)) {
      host.arm(200, 1_000, 10_000);
      bench.stats();
      host.run(
          2_000,
          number -> BitSet.valueOf(new long[] {1 + number % 63}),
          Lines.of(Chip.M328P_SHIFT),
          3_000,
          300);
      double longestUs = NS_PER_CYCLE / 1000 * bench.stats().get("longest");
      System.out.printf("line full: at most %.1f us between two samples%n", longestUs);
      assertThat(longestUs).isLessThanOrEqualTo(host.hello().blindUs());
    }
  }

  @Test
  void nothingIsPutOutAfterAResetThoughLatchesHoldWhatTheyHeld() {
    try (ChipBench bench = bench()) {
      for (String how : List.of("power", "pin", "brown-out")) {
        try (StepsOnChip host = new StepsOnChip(bench)) {
          assertThat(drives(bench.edges())).as("drives before anything was asked for").isEmpty();
          host.arm(8, 1_000, 10_000);
          BitSet on = BitSet.valueOf(new long[] {0xA5C31F});
          host.submit(on, new Lines(), 5_000, 5_000);
          assertThat(host.next()).isInstanceOf(LinkEvent.ResultArrived.class);
          List<Edge> edges = drives(bench.edges());
          assertThat(edges).as("all latches at once").hasSize(1);
          assertThat(edges.get(0).levels()).isEqualTo(0xA5C31FL);
        }
        bench.go(bench.stats().get("cycle") + SECOND_CYCLES, new byte[0]);
        bench.go(bench.stats().get("cycle") + SECOND_CYCLES, new byte[0]);
        assertThat(drives(bench.edges()))
            .as("after silence")
            .last()
            .extracting(Edge::levels)
            .isEqualTo(0L);
        bench.reset(how);
      }
    }
  }

  private static List<Edge> drives(List<Edge> edges) {
    return edges.stream().filter(edge -> edge.kind() == 'd').toList();
  }
}
