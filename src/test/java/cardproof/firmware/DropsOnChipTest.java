package cardproof.firmware;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.firmware.ChipBench.Edge;
import cardproof.link.DropCause;
import cardproof.link.FixtureState;
import cardproof.link.LinkEvent;
import cardproof.link.Status;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.Stream;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** However it ends, every drive pin is low or let go afterwards, and soon. */
class DropsOnChipTest {
  private static final Lines NONE = new Lines();
  private static final Lines ONE = new Lines(0);
  private static final double US_PER_MS = 1_000;
  private static final long PIECE_CYCLES = 160_000; // 10 ms
  private static final int PIECES = 500;
  private static final long PATIENCE_NS = 5_000_000_000L;

  @TempDir private Path folder;

  private ChipBench bench(Chip chip) {
    return ChipBench.inStep(chip, new BouncingPins(Lines.of(chip), 0, 1), folder);
  }

  /** Every drive that there is. */
  private static BitSet all(Chip chip) {
    BitSet all = new BitSet();
    all.set(0, chip.drives());
    return all;
  }

  /** Switches every drive on and waits for the step's end; the pins are seen to be on. */
  private static void switchOn(
      Chip chip, ChipBench bench, StepsOnChip host, int silenceMs, long holdMs) {
    host.arm(8, silenceMs, holdMs);
    host.submit(all(chip), NONE, 5_000, 5_000);
    assertThat(host.next()).isInstanceOf(LinkEvent.ResultArrived.class);
    assertThat(lastDrive(bench.edges()).levels()).isEqualTo(all(chip).toLongArray()[0]);
  }

  private static Edge lastDrive(List<Edge> edges) {
    return drives(edges).reduce((first, second) -> second).orElseThrow();
  }

  private static Stream<Edge> drives(List<Edge> edges) {
    return edges.stream().filter(edge -> edge.kind() == 'd');
  }

  /** Lets time go by until drives change, and returns all that happened at the pins. */
  private static List<Edge> untilDrivesChange(ChipBench bench) {
    List<Edge> edges = new ArrayList<>();
    for (int piece = 0; piece < PIECES; piece++) {
      bench.go(bench.stats().get("cycle") + PIECE_CYCLES, new byte[0]);
      edges.addAll(bench.edges());
      if (drives(edges).findAny().isPresent()) {
        bench.go(bench.stats().get("cycle") + PIECE_CYCLES, new byte[0]); // to the last of them
        edges.addAll(bench.edges());
        return edges;
      }
    }
    throw new AssertionError("drives are still on");
  }

  /** When the drives went, with nothing left on, and nothing switched on again. */
  private static double downUs(List<Edge> edges) {
    List<Edge> drives = drives(edges).toList();
    Edge first = drives.get(0);
    Edge last = drives.get(drives.size() - 1);
    assertThat(last.levels()).as("drives that are left on").isZero();
    long levels = first.levels();
    for (Edge edge : drives) {
      assertThat(edge.levels() & ~levels).as("a drive switched on while others drop").isZero();
      levels = edge.levels();
    }
    assertThat(last.us() - first.us()).as("us from the first drive to the last").isLessThan(5);
    return last.us();
  }

  private static void report(Chip chip, String what, double ms) {
    System.out.printf("%s, %s: every drive off after %.3f ms%n", chip, what, ms);
  }

  /** In real time and through a port: a program that is gone says nothing more. */
  @ParameterizedTest
  @EnumSource(Chip.class)
  void silence(Chip chip) {
    try (ChipBench bench = ChipBench.start(chip, new BouncingPins(Lines.of(chip), 0, 1), folder);
        StepsOnChip host = new StepsOnChip(bench.port())) {
      bench.atRealPace();
      switchOn(chip, bench, host, 300, 10_000);
      host.vanish();
      List<Edge> edges = new ArrayList<>();
      long untilNs = System.nanoTime() + PATIENCE_NS;
      while (drives(edges).findAny().isEmpty() && System.nanoTime() < untilNs) {
        LockSupport.parkNanos(20_000_000);
        edges.addAll(bench.edges());
      }
      LockSupport.parkNanos(20_000_000); // to the last of them
      edges.addAll(bench.edges());
      double ms = (downUs(edges) - bench.stats().get("last") / 16.0) / US_PER_MS;
      report(chip, "silence of 300 ms", ms);
      assertThat(ms).isBetween(299.0, 310.0);
    }
  }

  @ParameterizedTest
  @EnumSource(Chip.class)
  void silenceInTheMiddleOfAStep(Chip chip) {
    try (ChipBench bench = bench(chip);
        StepsOnChip host = new StepsOnChip(bench)) {
      host.arm(8, 300, 10_000);
      host.submit(all(chip), NONE, 5_000_000, 5_000_000);
      host.link().await(host.nowNs() + 50_000_000);
      assertThat(lastDrive(bench.edges()).levels()).isEqualTo(all(chip).toLongArray()[0]);
      double ms = (downUs(untilDrivesChange(bench)) - bench.stats().get("last") / 16.0) / US_PER_MS;
      report(chip, "silence of 300 ms within a step", ms);
      assertThat(ms).isBetween(299.0, 302.0);
    }
  }

  @ParameterizedTest
  @EnumSource(Chip.class)
  void aProgramThatHangsIsEndedByTheWatchdog(Chip chip) {
    try (ChipBench bench = bench(chip);
        StepsOnChip host = new StepsOnChip(bench)) {
      switchOn(chip, bench, host, 10_000, 60_000);
      double fromUs = bench.stats().get("cycle") / 16.0;
      bench.hang();
      double ms = (downUs(untilDrivesChange(bench)) - fromUs) / US_PER_MS;
      report(chip, "watchdog", ms);
      assertThat(ms).isBetween(240.0, 270.0); // 32,768 cycles of its 128 kHz are 256 ms
      startsAnew(chip, bench, host, 4);
    }
  }

  @ParameterizedTest
  @EnumSource(Chip.class)
  void aPatternHeldTooLong(Chip chip) {
    try (ChipBench bench = bench(chip);
        StepsOnChip host = new StepsOnChip(bench)) {
      host.arm(8, 1_000, 400);
      host.submit(all(chip), NONE, 5_000, 5_000);
      assertThat(host.next()).isInstanceOf(LinkEvent.ResultArrived.class);
      double onUs = drives(bench.edges()).filter(e -> e.levels() != 0).findFirst().get().us();
      Status status = dropped(host);
      assertThat(status.state()).isEqualTo(FixtureState.TRIPPED);
      assertThat(status.cause()).isEqualTo(DropCause.HOLD_LIMIT);
      double ms = (downUs(bench.edges()) - onUs) / US_PER_MS;
      report(chip, "hold limit of 400 ms", ms);
      assertThat(ms).isBetween(400.0, 402.0);
    }
  }

  /** A line that changes every 12 ms while a drive is on: the eighth move trips. */
  @ParameterizedTest
  @EnumSource(Chip.class)
  void chatter(Chip chip) {
    try (ChipBench bench = ChipBench.inStep(chip, new Oscillating(12_000_000), folder);
        StepsOnChip host = new StepsOnChip(bench)) {
      host.arm(8, 1_000, 10_000);
      host.submit(all(chip), ONE, 500_000, 100_000);
      Status status = dropped(host);
      assertThat(status.state()).isEqualTo(FixtureState.TRIPPED);
      assertThat(status.cause()).isEqualTo(DropCause.CHATTER);
      assertThat(status.chattering()).isZero();
      List<Edge> edges = bench.edges();
      List<Edge> moves = edges.stream().filter(edge -> edge.kind() == 'w').toList();
      List<Edge> after = edges.stream().filter(e -> e.us() > moves.get(0).us()).toList();
      double ms = (downUs(after) - moves.get(7).us()) / US_PER_MS;
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
    try (ChipBench bench = bench(chip);
        StepsOnChip host = new StepsOnChip(bench)) {
      switchOn(chip, bench, host, 1_000, 10_000);
      bench.reset(how);
      List<Edge> edges = untilDrivesChange(bench);
      Edge reset = edges.stream().filter(edge -> edge.kind() == 'r').findFirst().orElseThrow();
      double ms = (downUs(edges) - reset.us()) / US_PER_MS;
      report(chip, "reset by " + how, ms);
      assertThat(ms).isZero();
      startsAnew(chip, bench, host, cause);
    }
  }

  /** Nothing is switched on by starting, the host is told, and another session works. */
  private static void startsAnew(Chip chip, ChipBench bench, StepsOnChip host, int cause) {
    assertThat(dropped(host).boot()).isNotEqualTo(host.hello().boot());
    host.vanish();
    try (StepsOnChip again = new StepsOnChip(bench)) {
      assertThat(again.hello().resetCause()).isEqualTo(cause);
      assertThat(again.hello().boot()).isNotEqualTo(host.hello().boot());
      assertThat(again.hello().session()).isZero();
      assertThat(drives(bench.edges())).as("drives touched by starting").isEmpty();
      switchOn(chip, bench, again, 1_000, 10_000);
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
