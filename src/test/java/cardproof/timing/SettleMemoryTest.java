package cardproof.timing;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.log.BenchLog;
import cardproof.log.RunEnd;
import cardproof.log.RunWriter;
import cardproof.log.SumCard;
import cardproof.log.UnitId;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A million vectors in which 13 lines move are summarised in 64 MB of heap. */
@Tag("long")
final class SettleMemoryTest {
  private static final int VECTORS = 1_000_000;
  private static final int MOVED = VECTORS * (SumCard.LINES - SumCard.FIRST_OUTPUT);

  @TempDir Path directory;

  @Test
  void memoryIsBounded() throws Exception {
    Path file = directory.resolve("sum.bench");
    write(file);
    Process child =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx64m",
                "-cp",
                System.getProperty("java.class.path"),
                SummariseInLittleMemory.class.getName(),
                file.toString())
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    String printed = new String(child.getInputStream().readAllBytes(), StandardCharsets.US_ASCII);
    assertThat(child.waitFor()).isZero();
    assertThat(printed.lines().mapToLong(Long::parseLong).sum()).isEqualTo(MOVED);
  }

  private static void write(Path file) {
    Random random = new Random(6);
    try (BenchLog log = BenchLog.open(file, SumCard.CLOCK);
        RunWriter writer = log.begin(SumCard.start(UnitId.simulated("sum", "03")))) {
      writer.step(SumCard.step(0));
      for (int i = 0; i < VECTORS; i++) {
        writer.append(SumCard.passed(i, random));
        if (i % 500 == 0) {
          writer.commit();
        }
      }
      writer.end(RunEnd.FINISHED, "", SumCard.NOON);
    }
  }
}
