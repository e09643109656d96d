package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.fault.FaultNames;
import cardproof.files.CardFile;
import cardproof.files.FixtureFile;
import cardproof.firmware.Chip;
import cardproof.firmware.ChipBench;
import cardproof.firmware.ChipBench.Edge;
import cardproof.fixture.HookUp;
import cardproof.report.VcdFile;
import cardproof.report.VcdReader;
import cardproof.sim.PinnedCard;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Timed sequences, dwell and every edge from a plan, with the firmware that ships on a simulated
 * ATmega2560, a port between, and a card simulated from its wiring at the pins. The pins are the
 * truth.
 */
class TimedOnChipTest {
  private static final Path HOLD = Path.of("vectors", "hold");
  private static final Path PROFILE = Path.of("fixtures", "m2560.yaml");
  private static final double NS_PER_CYCLE = 62.5;

  /** The firmware's own figures: stamps right to 15 us, pulses seen from 21 us on. */
  private static final long STAMP_NS = 16_000;

  private static final long SHORTEST_NS = 21_000;

  @TempDir private Path folder;
  private List<Edge> edges = List.of();
  private HookUp hookUp;

  private Cli run(Path plan, List<String> faults, Object... more) {
    Card card = CardFile.read(HOLD.resolve("card.yaml")).value();
    hookUp = HookUp.of(card, FixtureFile.read(PROFILE).value());
    PinnedCard pinned =
        PinnedCard.wired(
            card,
            FaultNames.parseAll(faults, card),
            hookUp.lineOfDrive(),
            hookUp.lineOfWatch(),
            1,
            "05");
    try (ChipBench bench = ChipBench.start(Chip.M2560, pinned, folder)) {
      List<Object> words = new ArrayList<>(List.of("run", plan, "--fixture", PROFILE));
      words.addAll(List.of("--port", bench.port(), "--unit", "05", "--powered"));
      words.addAll(List.of("--log", folder.resolve("log.sqlite")));
      words.addAll(List.of(more));
      Cli cli = Cli.run(words.toArray());
      assertThat(bench.stats()).containsEntry("overruns", 0L).containsEntry("resets", 0L);
      edges = bench.edges();
      return cli;
    }
  }

  private Path plan() throws IOException {
    return Files.writeString(
        folder.resolve("plan.yaml"),
        """
        plan: timed, on a chip
        card: %s
        steps:
          - title: from nothing
            drive: {LD: 0, SEL: 0, D: 0}
          - title: a word is loaded while the clock runs
            sequence: {0 ms: {D: 0x5AC}, 40.125 ms: {LD: 1}, 140 ms: {LD: 0}, 240 ms: {D: released}}
            settle: 400 ms
          - title: what stands 110 ms after another was loaded
            sequence: {0 ms: {D: 0xA53}, 10 ms: {LD: 1}}
            settle: 300 ms
          - title: and is sampled then, whatever it does
            drive: {D: 0xFFF, LD: 1, SEL: 0}
            dwell: 100 ms
          - title: while it moves
            drive: {D: 0, LD: 1, SEL: 0}
            dwell: 100 ms
        """
            .formatted(HOLD.resolve("card.yaml").toAbsolutePath()));
  }

  @Test
  void aPlanOfSequencesAndDwellRunsAndEveryEdgeIsThatOfThePins() throws IOException {
    Path file = folder.resolve("seen.vcd");
    Cli cli = run(plan(), List.of(), "--capture", file);
    assertThat(cli.exitCode()).as(cli.out() + cli.err()).isEqualTo(ExitCode.PASSED);
    assertThat(cli.out()).contains("5 vectors: 5 pass").doesNotContain("SIMULATED");
    VcdFile seen = VcdReader.read(Files.readString(file));
    List<Edge> drives = edges.stream().filter(edge -> edge.kind() == 'd').toList();
    entriesAreSwitchedAtTheirTimes(drives);
    linesAreThoseOfThePins(seen, drives.get(0).cycle());
  }

  /** D at 0, LD at 40.125 ms and off at 140 ms, D off at 240 ms, at the chip's pins. */
  private static void entriesAreSwitchedAtTheirTimes(List<Edge> drives) {
    List<Double> ms = new ArrayList<>();
    double last = -1;
    for (Edge edge : drives) {
      double now = (edge.us() - drives.get(0).us()) / 1000;
      if (last < 0 || now - last > 0.2) { // pins of one pattern switch within microseconds
        ms.add(now);
      }
      last = now;
    }
    System.out.printf("patterns at the pins, ms from the first: %s%n", ms.subList(0, 4));
    assertThat(ms.get(1)).isBetween(40.125, 40.225);
    assertThat(ms.get(2)).isBetween(140.0, 140.1);
    assertThat(ms.get(3)).isBetween(240.0, 240.1);
  }

  /** The wave starts with a vector that switches nothing; what follows is on one clock. */
  private void linesAreThoseOfThePins(VcdFile seen, long firstCycle) {
    Map<Long, String> d = seen.signal("hold.drives.D").values();
    long sequenceNs =
        d.entrySet().stream()
            .filter(entry -> entry.getValue().equals("010110101100"))
            .findFirst()
            .orElseThrow()
            .getKey();
    int compared = 0;
    for (int watch = 0; watch < hookUp.lineOfWatch().length; watch++) {
      int line = hookUp.lineOfWatch()[watch];
      if (line == HookUp.NOTHING || !hookUp.card().lines().get(line).bus().name().equals("Q")) {
        continue;
      }
      List<Long> truth = flips(watch, firstCycle);
      List<Long> told = told(seen, hookUp.card().lines().get(line).bit(), sequenceNs);
      assertThat(truth).hasSizeGreaterThanOrEqualTo(told.size());
      int at = 0;
      for (long ns : told) {
        while (at < truth.size() && truth.get(at) < ns - STAMP_NS - 1000) {
          assertThat(pulse(truth, at)).as("a pulse that was not told").isLessThan(SHORTEST_NS);
          at++;
        }
        assertThat(truth.get(at))
            .as("Q line on watch %d", watch)
            .isBetween(ns - STAMP_NS - 1000, ns + 5000);
        at++;
        compared++;
      }
    }
    System.out.printf("%d edges of Q held against the pins%n", compared);
    assertThat(compared).isGreaterThan(24);
  }

  private static long pulse(List<Long> truth, int at) {
    long before = at == 0 ? Long.MAX_VALUE : truth.get(at) - truth.get(at - 1);
    long after = at + 1 == truth.size() ? Long.MAX_VALUE : truth.get(at + 1) - truth.get(at);
    return Math.min(before, after);
  }

  private List<Long> flips(int watch, long fromCycle) {
    List<Long> flips = new ArrayList<>();
    long before = 0;
    for (Edge edge : edges) {
      if (edge.kind() == 'w') {
        if (((edge.levels() ^ before) >>> watch & 1) != 0 && edge.cycle() >= fromCycle) {
          flips.add(Math.round((edge.cycle() - fromCycle) * NS_PER_CYCLE));
        }
        before = edge.levels();
      }
    }
    return flips;
  }

  private static List<Long> told(VcdFile seen, int bit, long fromNs) {
    VcdFile.Signal bus = seen.signal("hold.lines.Q");
    int at = bus.size() - 1 - bit;
    List<Long> told = new ArrayList<>();
    char before = '0';
    for (Map.Entry<Long, String> value : bus.values().entrySet()) {
      char now = value.getValue().charAt(at);
      if (now != before && now != 'x' && before != 'x' && value.getKey() >= fromNs) {
        told.add(value.getKey() - fromNs);
      }
      before = now;
    }
    return told;
  }

  /** A relay that is slow is late in the sequence and unsure at the dwell, and is named. */
  @Test
  void aSlowRelayIsFoundByIt() throws IOException {
    Cli cli = run(plan(), List.of("R[5] slow by 300 ms"));
    assertThat(cli.exitCode()).as(cli.out() + cli.err()).isEqualTo(ExitCode.FAILED);
    assertThat(cli.out())
        .contains("Q[5] (J3.6)", "NOT PROVED")
        .doesNotContain("Q[4] (J3.5): wanted");
  }

  /** The demonstration plan: set-up, hold and shortest pulse by search, 2353 vectors. */
  @Tag("long")
  @Test
  void setUpHoldAndShortestPulseAreMeasured() {
    Cli cli = run(HOLD.resolve("timing.yaml"), List.of());
    System.out.println(cli.out());
    assertThat(cli.exitCode()).as(cli.out() + cli.err()).isEqualTo(ExitCode.PASSED);
    assertThat(cli.out())
        .containsPattern("2353 vectors: \\d+ pass, \\d+ measured\n")
        .contains("PROVED: hold unit 05");
  }
}
