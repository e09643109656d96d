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
import org.junit.jupiter.api.Tag;
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
    long last = killed(file, temporary, 1, 700);

    assertThat(end(file, 1)).isEqualTo(RunEnd.INTERRUPTED);
    assertHolds(file, 1, last);
    writeAnotherRun(file);
    assertHolds(file, 1, last);
    assertThat(end(file, 1)).isEqualTo(RunEnd.INTERRUPTED);
    if (!System.getProperty("os.name").startsWith("Windows")) {
      assertThat(temporary).as("left behind by the native library").isEmptyDirectory();
    }
  }

  @Test
  @Timeout(value = 60, unit = TimeUnit.SECONDS)
  void afterAFewKillsInARow() throws Exception {
    kills(3);
  }

  @Test
  @Tag("long")
  void afterFiftyKillsInARow() throws Exception {
    kills(50);
  }

  /** Each time at a random number, some while sorting in what many vectors moved. */
  private void kills(int times) throws Exception {
    Path file = directory.resolve("sum.bench");
    Path temporary = Files.createDirectory(directory.resolve("tmp"));
    long seed = new Random().nextLong();
    Random random = new Random(seed);
    long vectors = 0;
    for (int run = 1; run <= times; run++) {
      int group = new int[] {1, 10, 100, 1000}[random.nextInt(4)];
      long last = killed(file, temporary, group, random.nextInt(3000));
      assertThat(end(file, run)).as("seed %d", seed).isEqualTo(RunEnd.INTERRUPTED);
      assertHolds(file, run, last);
      vectors += last + 1;
    }
    System.out.printf("%d kills, seed %d: %d vectors told of, all there%n", times, seed, vectors);
  }

  /** Lets a process write a run until it has told of a vector, and gives the last it told of. */
  private static long killed(Path file, Path temporary, int group, long at) throws Exception {
    Process child =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Djava.io.tmpdir=" + temporary,
                "-cp",
                System.getProperty("java.class.path"),
                AppendUntilKilled.class.getName(),
                file.toString(),
                Integer.toString(group))
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    long last = -1;
    boolean killed = false;
    try (BufferedReader printed =
        new BufferedReader(
            new InputStreamReader(child.getInputStream(), StandardCharsets.US_ASCII))) {
      for (String line = printed.readLine(); line != null; line = printed.readLine()) {
        last = Math.max(last, Long.parseLong(line));
        if (last >= at && !killed) {
          killed = true;
          child.toHandle().destroyForcibly(); // Process' own would close what is read here
        }
      }
    } finally {
      child.destroyForcibly();
    }
    child.waitFor();
    assertThat(last).isGreaterThanOrEqualTo(at);
    return last;
  }

  private static RunEnd end(Path file, long run) {
    try (BenchLog log = BenchLog.openForReading(file)) {
      return log.run(run).orElseThrow().summary().end();
    }
  }

  private static void assertHolds(Path file, long run, long last) {
    List<VectorRecord> found = new ArrayList<>();
    try (BenchLog log = BenchLog.openForReading(file)) {
      log.forEachVector(run, found::add);
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
