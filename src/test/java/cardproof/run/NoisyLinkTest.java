package cardproof.run;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.log.RunEnd;
import cardproof.log.VectorRecord;
import cardproof.log.Verdict;
import cardproof.sim.SimSettings;
import cardproof.sim.line.LineFault;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The promise of the protocol's page, seen from the card: whatever the line does, what is driven is
 * what the plan says, each pattern once and in order, and no verdict is wrong.
 */
class NoisyLinkTest {
  /** Loss, repetition, damage and reordering in percent each; slots; rows of three; seed. */
  @ParameterizedTest
  @CsvSource({"1, 16, 16667, 1", "10, 16, 1667, 2", "10, 2, 300, 3", "1, 4, 1000, 4"})
  void exactlyOnce(int percent, int slots, int rows, long seed) {
    run(percent, slots, rows, seed);
  }

  @Tag("long")
  @ParameterizedTest
  @CsvSource({"1, 16, 333334, 101", "10, 16, 33334, 102", "10, 4, 33334, 103"})
  void exactlyOnceOverAMillionSteps(int percent, int slots, int rows, long seed) {
    run(percent, slots, rows, seed);
  }

  /** A second without a word drops the drives; less is made good. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "link: cut every 7 s for 800 ms",
        "link: stall every 7 s for 800 ms",
        "link: garbage 20 %, lose bytes 5 %",
        "link: delay 1 ms to 80 ms, speed 115200 baud",
        "link to fixture: cut every 3 s for 500 ms, repeat 20 %",
        "link to host: lose 30 %, stall every 3 s for 500 ms",
      })
  void whateverTheLineDoes(String fault) {
    NoisyRun run = NoisyRun.of(300, settings(5, fault));
    System.out.printf("%s: %s%n", fault, run);
    assertAllPassed(run);
  }

  @ParameterizedTest
  @ValueSource(strings = {"link: ", "link to fixture: ", "link to host: "})
  void aLineThatIsCutForGoodEndsTheRun(String link) {
    NoisyRun run = NoisyRun.of(300, settings(6, link + "cut at 20 s"));
    assertThat(run.ending().end()).isEqualTo(RunEnd.LINK_LOST);
    assertThat(run.passed()).isBetween(200L, 500L);
    assertThat(run.amiss())
        .as("the drives fall once, of themselves")
        .hasSize(2)
        .allMatch(what -> what.contains("was {}") || what.contains("not driven to its end"));
  }

  /** Of a faulty card too: neither a false pass nor a false failure. */
  @Test
  void noiseChangesNoVerdict(@TempDir Path folder) throws IOException {
    List<VectorRecord> quiet = faulty(Files.createDirectory(folder.resolve("quiet")), List.of());
    List<VectorRecord> noisy =
        faulty(Files.createDirectory(folder.resolve("noisy")), NoisyRun.noise(5));
    assertThat(quiet.stream().map(VectorRecord::verdict)).contains(Verdict.WRONG, Verdict.PASS);
    assertThat(noisy)
        .usingRecursiveFieldByFieldElementComparatorOnFields("number", "verdict", "seen", "level")
        .isEqualTo(quiet);
  }

  private static List<VectorRecord> faulty(Path folder, List<LineFault> noise) {
    return BenchRun.of(NoisyRun.plan(NoisyRun.card(), 200, 8), folder)
        .settings(s -> s.withLineFaults(noise))
        .faults("Q[3] stuck at supply")
        .go()
        .records();
  }

  private static SimSettings settings(long seed, String fault) {
    return SimSettings.of(seed, "01").withSlots(4).withLineFaults(List.of(LineFault.parse(fault)));
  }

  private static void run(int percent, int slots, int rows, long seed) {
    NoisyRun run =
        NoisyRun.of(
            rows,
            SimSettings.of(seed, "01").withSlots(slots).withLineFaults(NoisyRun.noise(percent)));
    System.out.printf("%d %% each, %d slots, seed %d: %s%n", percent, slots, seed, run);
    assertAllPassed(run);
    assertThat(run.counters().framesDamaged()).isPositive();
    assertThat(run.counters().stepsResent()).isPositive();
  }

  private static void assertAllPassed(NoisyRun run) {
    assertThat(run.ending().end()).as(run.ending().why()).isEqualTo(RunEnd.FINISHED);
    assertThat(run.amiss()).isEmpty();
    assertThat(run.passed()).isEqualTo(run.vectors());
  }
}
