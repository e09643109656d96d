package cardproof.firmware;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.link.Result;
import java.nio.file.Path;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Steps so short, and a host so quick, that the chip is never done with its line: what comes in
 * meanwhile must neither find the receiver full nor the program too slow.
 */
class FullLoadTest {
  private static final long LINE_CYCLES_A_BYTE = 640;

  /** With every slot always full, what the chips can do: half of their time goes into sampling. */
  private static final double BUSY_AT_LEAST = 0.35;

  @TempDir private Path folder;

  @ParameterizedTest
  @EnumSource(Chip.class)
  void noByteIsLostInTenThousandSteps(Chip chip) {
    run(chip, 10_000);
  }

  @Tag("long")
  @ParameterizedTest
  @EnumSource(Chip.class)
  void noByteIsLostInAHundredThousandSteps(Chip chip) {
    run(chip, 100_000);
  }

  private void run(Chip chip, int steps) {
    try (ChipBench bench = ChipBench.inStep(chip, new BouncingPins(Lines.of(chip), 0, 1), folder);
        StepsOnChip host = new StepsOnChip(bench)) {
      host.arm(200, 1_000, 10_000);
      List<Result> results =
          host.run(
              steps,
              number -> BitSet.valueOf(new long[] {1 + number % 63}),
              Lines.of(chip),
              3_000,
              300);
      Map<String, Long> stats = bench.stats();
      System.out.printf("%s: %d steps, %s%n", chip, steps, stats);
      double busy = LINE_CYCLES_A_BYTE * stats.get("sent") / (double) stats.get("cycle");
      System.out.printf("%s: the chip keeps its line busy %.0f %% of the time%n", chip, 100 * busy);
      assertThat(results).hasSize(steps);
      for (int step = 0; step < steps; step++) {
        assertThat(results.get(step).number()).isEqualTo(step);
      }
      assertThat(busy).as("the chip is never without work").isGreaterThan(BUSY_AT_LEAST);
      assertThat(stats).containsEntry("overruns", 0L).containsEntry("unsent", 0L);
      assertThat(host.link().status().framesDamaged()).isZero();
      memory(chip, stats.get("stack"));
    }
  }

  /** Static memory and the deepest stack seen, and the program, against the chip's limits. */
  private static void memory(Chip chip, long stack) {
    Path elf = Built.elf(chip);
    long fixed = Built.address(elf, "_end") - Built.address(elf, "__data_start");
    long flash = Built.sectionBytes(elf, ".text") + Built.sectionBytes(elf, ".data");
    System.out.printf(
        "%s: memory %d + %d of stack of %d, flash %d of %d%n",
        chip, fixed, stack, chip.memoryBytes, flash, chip.flashBytes);
    assertThat(stack).isPositive();
    assertThat(fixed + 2 * stack)
        .as("twice the stack that was seen fits")
        .isLessThanOrEqualTo(chip.memoryBytes);
    assertThat(flash).isLessThanOrEqualTo(chip.flashBytes - 8192 * (chip == Chip.M2560 ? 1 : 0));
  }
}
