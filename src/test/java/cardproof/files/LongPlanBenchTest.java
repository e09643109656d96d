package cardproof.files;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.plan.Plan;
import cardproof.plan.PlanCheck;
import cardproof.plan.VectorSource;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * How long a plan of 10,000 lines takes to be read and checked, in a program that has just started
 * and in one that is warm, and how many vectors a second come out of a plan of ten million.
 */
@Tag("bench")
class LongPlanBenchTest {
  private static final int LINES = 10_000;
  private static final long VECTORS = 10_000_000;

  @TempDir private Path folder;

  private Path write(StringBuilder steps, String card) throws IOException {
    Path file = folder.resolve("long.yaml");
    String text = Files.readString(Path.of("vectors", card, "card.yaml"));
    Files.writeString(folder.resolve("card.yaml"), text.replace("../relays.yaml", "relays.yaml"));
    Files.copy(Path.of("vectors", "relays.yaml"), folder.resolve("relays.yaml"));
    return Files.writeString(file, "plan: long\ncard: card.yaml\n" + steps);
  }

  @Test
  void tenThousandLines() throws IOException {
    StringBuilder text =
        new StringBuilder(
            """
            set: {KEPT: 0xA53}
            procedures:
              put:
                arguments: [word]
                steps:
                  - title: put <word> in the register
                    drive: {D: <word>}
                    pulse: {LD: 1}
            steps:
            """);
    int written = 0;
    for (int i = 0; written < LINES - 12; i++) {
      text.append("  - call: put\n    with: {word: ").append(i % 4096).append("}\n");
      text.append("  - title: hold it\n    drive: {D: KEPT}\n    expect: {Q: ")
          .append(i % 4096)
          .append("}\n");
      written += 5;
    }
    Path file = write(text, "hold");
    for (int round = 0; round < 5; round++) {
      long beganNs = System.nanoTime();
      long cpuBeganNs = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
      Plan plan = PlanFile.read(file).value();
      double readMs = (System.nanoTime() - beganNs) / 1e6;
      PlanCheck check = PlanCheck.of(plan, done -> {});
      double allMs = (System.nanoTime() - beganNs) / 1e6;
      double cpuMs =
          (ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - cpuBeganNs) / 1e6;
      System.out.printf(
          "10,000 lines, round %d: read in %.0f ms, with check %.0f ms (%.0f ms of processor), %d vectors%n",
          round, readMs, allMs, cpuMs, check.vectors());
      // processor time, since a machine that is busy with other things is no slower program
      assertThat(cpuMs).isLessThan(1000);
    }
  }

  @Test
  void tenMillionVectors() throws IOException {
    Path file =
        write(
            new StringBuilder(
                """
                steps:
                  - each: {A B CI: {random: 10_000_000, seed: 3}}
                """),
            "sum");
    Plan plan = PlanFile.read(file).value();
    long beganNs = System.nanoTime();
    VectorSource source = plan.vectors();
    long count = 0;
    while (source.hasNext()) {
      source.next();
      count++;
    }
    double rate = count * 1e9 / (System.nanoTime() - beganNs);
    System.out.printf(
        "%,d vectors at %,.0f a second, in at most %d MiB%n",
        count, rate, Runtime.getRuntime().maxMemory() >> 20);
    assertThat(count).isEqualTo(VECTORS);
  }
}
