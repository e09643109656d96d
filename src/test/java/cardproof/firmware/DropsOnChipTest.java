package cardproof.firmware;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.firmware.ChipBench.Edge;
import cardproof.link.DropCause;
import cardproof.link.FixtureState;
import cardproof.link.LinkEvent;
import cardproof.link.Status;
import cardproof.sim.PinSide;
import java.nio.file.Path;
import java.util.BitSet;
import java.util.List;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** However it ends, every drive pin is low or let go afterwards, and soon. */
class DropsOnChipTest {
  private static final int LINES = 6;
  private static final BitSet ON = BitSet.valueOf(new long[] {0b10_1101});
  private static final double US_PER_MS = 1_000;
  private static final long PATIENCE_NS = 5_000_000_000L;

  @TempDir private Path folder;

  /** A bench whose drives are on, at the pace of a real chip. */
  private ChipBench on(Chip chip, PinSide card) {
    ChipBench bench = ChipBench.start(chip, card, folder);
    bench.atRealPace();
    return bench;
  }

  private static void switchOn(StepsOnChip host, int silenceMs, long holdMs, long watchUs) {
    host.arm(8, silenceMs, holdMs);
    host.submit(ON, 0, watchUs, watchUs);
    LinkEvent event = host.next();
    assertThat(event).isInstanceOf(LinkEvent.ResultArrived.class);
  }

  /** The time, on the chip's clock, at which the last drive went low, once they all have. */
  private static double downUs(ChipBench bench) {
    long untilNs = System.nanoTime() + PATIENCE_NS;
    double lastUs = -1;
    boolean wereOn = false;
    while (System.nanoTime() < untilNs) {
      for (Edge edge : bench.edges()) {
        if (edge.kind() == 'd') {
          wereOn |= edge.levels() != 0;
          lastUs = edge.levels() == 0 && wereOn ? edge.us() : -1;
        }
      }
      if (lastUs >= 0) {
        return lastUs;
      }
      LockSupport.parkNanos(20_000_000);
    }
    throw new AssertionError("drives are still on");
  }

  private static void report(Chip chip, String what, double ms) {
    System.out.printf("%s, %s: every drive off after %.2f ms%n", chip, what, ms);
  }

  @ParameterizedTest
  @EnumSource(Chip.class)
  void silence(Chip chip) {
    try (ChipBench bench = on(chip, new BouncingPins(LINES, 0, 1));
        StepsOnChip host = new StepsOnChip(bench.port())) {
      switchOn(host, 300, 10_000, 5_000);
      host.vanish();
      double downUs = downUs(bench);
      double ms = (downUs - bench.stats().get("last") / 16.0) / US_PER_MS;
      report(chip, "silence of 300 ms", ms);
      assertThat(ms).isBetween(299.0, 310.0);
    }
  }

  @ParameterizedTest
  @EnumSource(Chip.class)
  void aProgramThatHangsIsEndedByTheWatchdog(Chip chip) {
    try (ChipBench bench = on(chip, new BouncingPins(LINES, 0, 1));
        StepsOnChip host = new StepsOnChip(bench.port())) {
      switchOn(host, 10_000, 60_000, 5_000);
      double fromUs = bench.stats().get("cycle") / 16.0;
      bench.hang();
      double ms = (downUs(bench) - fromUs) / US_PER_MS;
      report(chip, "watchdog", ms);
      assertThat(ms).isBetween(100.0, 300.0);
      LinkEvent event = host.next();
      assertThat(event).isInstanceOf(LinkEvent.Dropped.class);
      host.vanish();
      try (StepsOnChip again = new StepsOnChip(bench.port())) {
        assertThat(again.hello().resetCause()).isEqualTo(4);
        assertThat(again.hello().boot()).isNotEqualTo(host.hello().boot());
      }
    }
  }

  @ParameterizedTest
  @EnumSource(Chip.class)
  void aPatternHeldTooLong(Chip chip) {
    try (ChipBench bench = on(chip, new BouncingPins(LINES, 0, 1));
        StepsOnChip host = new StepsOnChip(bench.port())) {
      host.arm(8, 1_000, 400);
      host.submit(ON, 0, 5_000, 5_000);
      assertThat(host.next()).isInstanceOf(LinkEvent.ResultArrived.class);
      Status status = dropped(host);
      assertThat(status.state()).isEqualTo(FixtureState.TRIPPED);
      assertThat(status.cause()).isEqualTo(DropCause.HOLD_LIMIT);
      List<Edge> drives =
          bench.edges().stream().filter(edge -> edge.kind() == 'd' && edge.us() > 0).toList();
      Edge down = drives.get(drives.size() - 1);
      assertThat(down.levels()).isZero();
      double onUs = drives.stream().filter(e -> e.levels() != 0).findFirst().orElseThrow().us();
      report(chip, "hold limit of 400 ms", (down.us() - onUs) / US_PER_MS);
      assertThat((down.us() - onUs) / US_PER_MS).isBetween(400.0, 402.0);
    }
  }

  /** A line that changes every 12 ms while a drive is on: the eighth move trips. */
  @ParameterizedTest
  @EnumSource(Chip.class)
  void chatter(Chip chip) {
    try (ChipBench bench = on(chip, new Oscillating(12_000_000));
        StepsOnChip host = new StepsOnChip(bench.port())) {
      host.arm(8, 1_000, 10_000);
      host.submit(ON, LINES, 500_000, 100_000);
      Status status = dropped(host);
      assertThat(status.state()).isEqualTo(FixtureState.TRIPPED);
      assertThat(status.cause()).isEqualTo(DropCause.CHATTER);
      assertThat(status.chattering()).isZero();
      List<Edge> edges = bench.edges();
      List<Edge> moves = edges.stream().filter(edge -> edge.kind() == 'w').toList();
      double downUs =
          edges.stream()
              .filter(edge -> edge.kind() == 'd' && edge.levels() == 0)
              .mapToDouble(Edge::us)
              .max()
              .orElseThrow();
      double ms = (downUs - moves.get(7).us()) / US_PER_MS;
      report(chip, "eighth move", ms);
      assertThat(ms).isBetween(0.0, 1.0);
    }
  }

  @ParameterizedTest
  @CsvSource({
    "M2560, pin, 2", "M2560, power, 1", "M2560, brown-out, 3",
    "M328P, pin, 2", "M328P, power, 1", "M328P, brown-out, 3"
  })
  void resets(Chip chip, String how, int cause) {
    try (ChipBench bench = on(chip, new BouncingPins(LINES, 0, 1));
        StepsOnChip host = new StepsOnChip(bench.port())) {
      switchOn(host, 1_000, 10_000, 5_000);
      double fromUs = bench.stats().get("cycle") / 16.0;
      bench.reset(how);
      double ms = (downUs(bench) - fromUs) / US_PER_MS;
      report(chip, "reset by " + how, ms);
      assertThat(ms).isLessThan(5); // what passes between two questions to the simulator
      Status status = dropped(host);
      assertThat(status.boot()).isNotEqualTo(host.hello().boot());
      host.vanish();
      try (StepsOnChip again = new StepsOnChip(bench.port())) {
        assertThat(again.hello().resetCause()).isEqualTo(cause);
        assertThat(again.hello().session()).isZero();
      }
    }
  }

  private static Status dropped(StepsOnChip host) {
    for (int i = 0; i < 10; i++) {
      if (host.next() instanceof LinkEvent.Dropped dropped) {
        return dropped.status();
      }
    }
    throw new AssertionError("not dropped");
  }
}
