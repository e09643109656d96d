package cardproof.log;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** What was committed is there after the process was killed without warning. */
final class KilledTest {
  @TempDir Path directory;

  @Test
  @Timeout(value = 60, unit = TimeUnit.SECONDS)
  void everyNumberItPrintedIsInTheLog() throws Exception {
    Path file = directory.resolve("sum.bench");
    Path temporary = Files.createDirectory(directory.resolve("tmp"));
    Process child =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Djava.io.tmpdir=" + temporary,
                "-cp",
                System.getProperty("java.class.path"),
                AppendUntilKilled.class.getName(),
                file.toString())
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    long last = -1;
    try (BufferedReader printed =
        new BufferedReader(
            new InputStreamReader(child.getInputStream(), StandardCharsets.US_ASCII))) {
      for (String line = printed.readLine(); line != null; line = printed.readLine()) {
        last = Math.max(last, Long.parseLong(line));
        if (last == 700) {
          assertThat(end(file)).isEqualTo(RunEnd.RUNNING);
          child.toHandle().destroyForcibly(); // Process' own would close what is read here
        }
      }
    } finally {
      child.destroyForcibly();
    }
    child.waitFor();

    assertThat(last).isGreaterThanOrEqualTo(700);
    assertThat(end(file)).isEqualTo(RunEnd.INTERRUPTED);
    assertHolds(file, last);
    writeAnotherRun(file);
    assertHolds(file, last);
    assertThat(end(file)).isEqualTo(RunEnd.INTERRUPTED);
    if (!System.getProperty("os.name").startsWith("Windows")) {
      assertThat(temporary).as("left behind by the native library").isEmptyDirectory();
    }
  }

  private static RunEnd end(Path file) {
    try (BenchLog log = BenchLog.openForReading(file)) {
      return log.run(1).orElseThrow().summary().end();
    }
  }

  private static void assertHolds(Path file, long last) {
    List<VectorRecord> found = new ArrayList<>();
    try (BenchLog log = BenchLog.openForReading(file)) {
      log.forEachVector(1, found::add);
    }
    assertThat(found).hasSizeGreaterThan((int) last);
    for (int number = 0; number < found.size(); number++) {
      assertThat(found.get(number)).isEqualTo(SumCard.passed(number, new Random(number)));
    }
  }

  /** Which also sorts in the moved lines that the killed process left unsorted. */
  private static void writeAnotherRun(Path file) {
    try (BenchLog log = BenchLog.open(file, SumCard.CLOCK);
        RunWriter writer = log.begin(SumCard.start(UnitId.real("sum", "03")))) {
      writer.end(RunEnd.FINISHED, "", SumCard.NOON);
      assertThat(log.runs(RunFilter.real())).hasSize(2);
    }
  }
}
