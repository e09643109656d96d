package cardproof.log;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Random;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

final class TwoWritersTest {
  private static final int VECTORS = 600;

  @TempDir Path directory;

  @Test
  @Timeout(value = 60, unit = TimeUnit.SECONDS)
  void takeTurnsAndLoseNothing() {
    Path file = directory.resolve("sum.bench");
    CompletableFuture<Long> first = CompletableFuture.supplyAsync(() -> write(file, "03"));
    CompletableFuture<Long> second = CompletableFuture.supplyAsync(() -> write(file, "04"));
    long firstRun = first.join();
    long secondRun = second.join();
    try (BenchLog log = BenchLog.openForReading(file)) {
      for (long run : new long[] {firstRun, secondRun}) {
        long[] next = new long[1];
        log.forEachVector(
            run,
            found ->
                assertThat(found).isEqualTo(SumCard.passed(next[0], new Random(run + next[0]++))));
        assertThat(next[0]).isEqualTo(VECTORS);
      }
    }
  }

  private static long write(Path file, String unit) {
    try (BenchLog log = BenchLog.open(file, SumCard.CLOCK);
        RunWriter writer = log.begin(SumCard.start(UnitId.real("sum", unit)))) {
      long run = writer.runId();
      writer.step(SumCard.step(0));
      for (long number = 0; number < VECTORS; number++) {
        writer.append(SumCard.passed(number, new Random(run + number)));
        writer.commit();
      }
      writer.end(RunEnd.FINISHED, "", SumCard.NOON);
      return run;
    }
  }
}
