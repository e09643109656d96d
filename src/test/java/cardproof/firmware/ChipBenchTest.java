package cardproof.firmware;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cardproof.firmware.ChipBench.Edge;
import cardproof.firmware.ChipBench.Program;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The simulated chip itself, proved with a program whose every cycle can be told ({@code
 * src/test/chip/probe}). Where no other source is named, what a chip does is from the data sheet of
 * the ATmega2560 and that of the ATmega328P.
 */
class ChipBenchTest {
  private static final long BYTE_CYCLES = 640; // ten bits at 250,000 baud and 16 MHz
  private static final long MS_CYCLES = 16_000;
  private static final long FOLLOWS_NS = 100_000;

  /** Longest instruction and the simulator's step: how late a pin can be seen to change. */
  private static final long STEP_CYCLES = 20;

  @TempDir private Path folder;
  private long now;

  private ChipBench bench(String probe, String mcu) {
    now = 0;
    Program program = Program.of(Built.probe(probe), mcu, "C0", "B0");
    return ChipBench.inStep(program, new Following(FOLLOWS_NS), folder);
  }

  /** A chip that has started, and been told to do this for so long. */
  private ChipBench started(String mcu) {
    ChipBench bench = bench(mcu, mcu);
    assertThat(said(bench, "", 5)).isEqualTo("R1"); // power on
    bench.edges();
    return bench;
  }

  private String said(ChipBench bench, String told, long ms) {
    now += ms * MS_CYCLES;
    return new String(bench.go(now, told.getBytes(US_ASCII)).bytes(), US_ASCII);
  }

  @ParameterizedTest
  @ValueSource(strings = {"atmega2560", "atmega328p"})
  void bytesTakeTheTimeOfTheLine(String mcu) {
    try (ChipBench bench = started(mcu)) {
      long from = bench.stats().get("cycle");
      assertThat(said(bench, "ABCDEFGHIJ", 10)).isEqualTo("ABCDEFGHIJ");
      // The last is there in the middle of its stop bit: half a bit of 64 cycles early.
      assertThat(bench.stats().get("last") - from)
          .isCloseTo(10 * BYTE_CYCLES - 32, within(STEP_CYCLES));

      long sent = bench.stats().get("sent");
      now += BYTE_CYCLES; // until the request has come
      bench.go(now, "#".getBytes(US_ASCII));
      now += 80 * BYTE_CYCLES;
      bench.go(now, new byte[0]);
      assertThat(bench.stats().get("sent") - sent).isBetween(79L, 80L);
      assertThat(bench.stats()).containsEntry("unsent", 0L).containsEntry("garbled", 0L);
    }
  }

  /**
   * A receiver holds two bytes and one in its shift register; the start bit of the next kills that.
   */
  @ParameterizedTest
  @CsvSource({
    "atmega2560, ab, ab2-, 0", "atmega2560, abc, abc3-, 0",
    "atmega2560, abcd, abd3D, 1", "atmega2560, abcdefghij, abj3D, 7",
    "atmega328p, ab, ab2-, 0", "atmega328p, abc, abc3-, 0",
    "atmega328p, abcd, abd3D, 1", "atmega328p, abcdefghij, abj3D, 7"
  })
  void whatADeafProgramLosesIsLostAndCounted(String mcu, String meanwhile, String left, long lost) {
    try (ChipBench bench = started(mcu)) {
      assertThat(said(bench, "d" + meanwhile, 10)).isEqualTo(left);
      assertThat(bench.stats()).containsEntry("overruns", lost);
      assertThat(said(bench, "q", 5)).as("and it hears again").isEqualTo("q");
    }
  }

  @Test
  void aChipSetForAnotherRateReadsAndSaysSomethingElse() {
    try (ChipBench bench = bench("wrong-rate", "atmega328p")) {
      assertThat(said(bench, "", 5)).isNotEqualTo("R1").hasSize(2);
      said(bench, "a", 5);
      assertThat(bench.stats().get("garbled")).isGreaterThanOrEqualTo(3);
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"atmega2560", "atmega328p"})
  void edgesAreLoggedToTheCycle(String mcu) {
    try (ChipBench bench = started(mcu)) {
      said(bench, "p", 5);
      List<Edge> drive = of(bench.edges(), 'd');
      assertThat(drive).extracting(Edge::levels).containsExactly(1L, 0L);
      assertThat(drive.get(1).cycle() - drive.get(0).cycle()).isEqualTo(160);
    }
  }

  @Test
  void aWatchChangesWhenTheCardSaysAndTheProgramSeesIt() {
    try (ChipBench bench = started("atmega2560")) {
      assertThat(said(bench, "?1", 5)).isEqualTo("0");
      assertThat(said(bench, "?", 5)).isEqualTo("1");
      said(bench, "0t", 5); // the watch falls while the program waits for it
      List<Edge> edges = bench.edges();
      List<Edge> drive = of(edges, 'd');
      List<Edge> watch = of(edges, 'w');
      assertThat(drive).extracting(Edge::levels).containsExactly(1L, 0L, 1L);
      assertThat(watch).extracting(Edge::levels).containsExactly(1L, 0L, 1L);
      for (int i = 0; i < watch.size(); i++) {
        assertThat(watch.get(i).cycle() - drive.get(i).cycle())
            .isBetween(FOLLOWS_NS * 16 / 1000, FOLLOWS_NS * 16 / 1000 + 2 * STEP_CYCLES);
      }
      assertThat(drive.get(2).cycle() - watch.get(1).cycle()).isBetween(1L, STEP_CYCLES);
    }
  }

  @Test
  void aPinThatIsLetGoIsNotDrivenWhateverItsPullUp() {
    try (ChipBench bench = started("atmega328p")) {
      said(bench, "1", 5);
      said(bench, "z", 5);
      assertThat(of(bench.edges(), 'd')).extracting(Edge::levels).containsExactly(1L, 0L);
    }
  }

  @ParameterizedTest
  @CsvSource({
    "atmega2560, power, R1", "atmega2560, pin, R2", "atmega2560, brown-out, R4",
    "atmega328p, power, R1", "atmega328p, pin, R2", "atmega328p, brown-out, R4"
  })
  void aResetLetsGoOfEveryPinAndGivesItsCause(String mcu, String how, String says) {
    try (ChipBench bench = started(mcu)) {
      said(bench, "1", 5);
      bench.reset(how);
      List<Edge> edges = bench.edges();
      Edge reset = of(edges, 'r').get(0);
      Edge released = edges.get(edges.size() - 1);
      assertThat(released.kind()).isEqualTo('d');
      assertThat(released.levels()).isZero();
      assertThat(released.cycle()).isEqualTo(reset.cycle());
      now = bench.stats().get("cycle"); // a reset lasts for a while
      assertThat(said(bench, "", 5)).isEqualTo(says);
      assertThat(said(bench, "?", 5)).as("the card has let go as well").isEqualTo("0");
    }
  }

  /** WDTO_15MS is 2,048 cycles of 128 kHz: 16 ms. */
  @ParameterizedTest
  @ValueSource(strings = {"atmega2560", "atmega328p"})
  void theWatchdogResetsAndTheInputsAreGivenAnew(String mcu) {
    try (ChipBench bench = started(mcu)) {
      said(bench, "1", 5);
      assertThat(said(bench, "w", 30)).isEqualTo("R8");
      List<Edge> edges = bench.edges();
      Edge reset = of(edges, 'r').get(0);
      double ms = (reset.cycle() - bench.stats().get("last")) / (double) MS_CYCLES;
      assertThat(ms).isCloseTo(16, within(0.5));
      assertThat(of(edges, 'd')).last().isEqualTo(new Edge(reset.cycle(), 'd', 0));
      assertThat(bench.stats()).containsEntry("resets", 1L);
      assertThat(said(bench, "1", 5) + said(bench, "?", 5)).isEqualTo("1");
    }
  }

  /** PF4 to PF7 until JTD was written twice within four cycles; a reset brings them back. */
  @ParameterizedTest
  @CsvSource({"'', 0", "[, 0", "[[, 0", "|, 0", "], 1"})
  void theJtagPortKeepsItsPinsUntilItIsSwitchedOff(String how, String seen) {
    now = 0;
    Program program = Program.of(Built.probe("atmega2560"), "atmega2560", "C0", "F4");
    try (ChipBench bench = ChipBench.inStep(program, new Following(FOLLOWS_NS), folder)) {
      said(bench, "", 5);
      said(bench, how, 5);
      said(bench, "1", 5);
      assertThat(said(bench, "!", 5)).isEqualTo(seen);
      said(bench, "0", 5);
      assertThat(said(bench, "!", 5)).isEqualTo("0");
      said(bench, "1", 5);
      assertThat(bench.stats()).containsEntry("jtag", seen.equals("1") ? 0L : 1L);
      bench.reset("pin");
      assertThat(bench.stats()).containsEntry("jtag", 1L);
    }
  }

  @Test
  void theDeepestStackIsSeen() {
    try (ChipBench bench = started("atmega328p")) {
      long before = bench.stats().get("stack");
      said(bench, "s", 5);
      assertThat(bench.stats().get("stack") - before).isBetween(195L, 220L);
    }
  }

  @Test
  void theSameAgainIsTheSameToTheCycle() {
    assertThat(story()).isEqualTo(story()).hasSizeGreaterThan(8);
  }

  private List<Edge> story() {
    try (ChipBench bench = started("atmega2560")) {
      said(bench, "1p0t", 5);
      bench.reset("pin");
      now = bench.stats().get("cycle");
      said(bench, "p1", 10);
      said(bench, "0", 10);
      return bench.edges();
    }
  }

  private static List<Edge> of(List<Edge> edges, char kind) {
    return edges.stream().filter(edge -> edge.kind() == kind).toList();
  }
}
