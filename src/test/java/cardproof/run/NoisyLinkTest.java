package cardproof.run;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.log.RunEnd;
import cardproof.sim.SimSettings;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

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

  private static void run(int percent, int slots, int rows, long seed) {
    NoisyRun run =
        NoisyRun.of(
            rows,
            SimSettings.of(seed, "01").withSlots(slots).withLineFaults(NoisyRun.noise(percent)));
    System.out.printf("%d %% each, %d slots, seed %d: %s%n", percent, slots, seed, run);
    assertThat(run.amiss()).isEmpty();
    assertThat(run.ending().end()).as(run.ending().why()).isEqualTo(RunEnd.FINISHED);
    assertThat(run.passed()).isEqualTo(run.vectors());
    assertThat(run.counters().framesDamaged()).isPositive();
    assertThat(run.counters().stepsResent()).isPositive();
  }
}
