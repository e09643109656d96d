package cardproof.files;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.plan.Plan;
import cardproof.plan.VectorSource;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import com.code_intelligence.jazzer.junit.FuzzTest;
import com.sun.management.ThreadMXBean;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Files of any bytes: each is read or refused in words, soon, and without taking much memory. The
 * seeds are the example files of these tests.
 */
class ReaderFuzzTest {
  /** How many times more instrumented classes take of both. */
  private static final int DEARER = System.getenv("JAZZER_FUZZ") == null ? 1 : 20;

  private static final long MOST_CPU_NS = 5_000_000_000L * DEARER;

  /**
   * All that is allocated, not what is kept; a plan at its limit of 2,000,000 values takes 0.7 GB.
   */
  private static final long MOST_BYTES = (1L << 30) * DEARER;

  private static final int VECTORS = 300;
  private static final ThreadMXBean THREADS = (ThreadMXBean) ManagementFactory.getThreadMXBean();

  @TempDir private static Path folder;

  @BeforeAll
  static void whatPlansNeed() throws IOException {
    for (String kind : List.of("card", "parts", "parts/more")) {
      Files.createDirectories(folder.resolve(kind));
      for (Path file : Corpus.files(Corpus.GOOD.resolve(kind))) {
        Files.copy(file, folder.resolve(kind).resolve(file.getFileName()));
      }
    }
    Files.createDirectories(folder.resolve("plan"));
    Files.createDirectories(folder.resolve("fixture"));
  }

  @MethodSource
  @FuzzTest(maxDuration = "10m")
  void cards(byte[] bytes) throws IOException {
    read("card", bytes);
  }

  static Stream<byte[]> cards() {
    return seeds("card");
  }

  @MethodSource
  @FuzzTest(maxDuration = "10m")
  void plans(byte[] bytes) throws IOException {
    read("plan", bytes);
  }

  static Stream<byte[]> plans() {
    return seeds("plan");
  }

  @MethodSource
  @FuzzTest(maxDuration = "10m")
  void fixtures(byte[] bytes) throws IOException {
    read("fixture", bytes);
  }

  static Stream<byte[]> fixtures() {
    return seeds("fixture");
  }

  private static Stream<byte[]> seeds(String kind) {
    return Stream.of(Corpus.GOOD, Corpus.BAD)
        .flatMap(all -> Corpus.files(all.resolve(kind)).stream())
        .map(ReaderFuzzTest::bytesOf);
  }

  private static byte[] bytesOf(Path file) {
    try {
      return Files.readAllBytes(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void read(String kind, byte[] bytes) throws IOException {
    Path file = Files.write(folder.resolve(kind).resolve("fuzzed.yaml"), bytes);
    long cpuNs = THREADS.getCurrentThreadCpuTime();
    long allocated = THREADS.getCurrentThreadAllocatedBytes();
    try {
      Loaded<?> loaded = Corpus.read(file, kind);
      loaded.warnings().forEach(ReaderFuzzTest::saysWhereAndWhat);
      if (loaded.value() instanceof Plan plan) {
        VectorSource vectors = plan.vectors();
        for (int i = 0; i < VECTORS && vectors.hasNext(); i++) {
          vectors.next();
        }
      }
    } catch (RefusedException refused) {
      assertThat(refused.problems()).isNotEmpty();
      refused.problems().forEach(ReaderFuzzTest::saysWhereAndWhat);
    }
    assertThat(THREADS.getCurrentThreadCpuTime() - cpuNs).isLessThan(MOST_CPU_NS);
    assertThat(THREADS.getCurrentThreadAllocatedBytes() - allocated).isLessThan(MOST_BYTES);
  }

  private static void saysWhereAndWhat(Problem problem) {
    assertThat(problem.where()).isNotBlank();
    assertThat(problem.found()).isNotBlank();
    assertThat(problem.toString()).doesNotContain("org.yaml", "Exception", "\n");
  }
}
