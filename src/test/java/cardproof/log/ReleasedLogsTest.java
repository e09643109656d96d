package cardproof.log;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.zip.GZIPInputStream;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Logs that the program itself wrote when each version of the schema was the current one: a run
 * that passed, one with a fault, a rework, and a run that passed again.
 */
final class ReleasedLogsTest {
  private static final int FIRST_WITH_TRANSITIONS = 5;

  @TempDir Path directory;

  static IntStream versions() {
    return IntStream.rangeClosed(1, Schema.current().version() - 1);
  }

  private Path log(int version) throws IOException {
    Path file = directory.resolve("old.bench");
    Path packed = Path.of("src", "test", "resources", "logs", "schema-" + version + ".sqlite.gz");
    try (InputStream open = new GZIPInputStream(Files.newInputStream(packed))) {
      Files.copy(open, file);
    }
    return file;
  }

  @ParameterizedTest
  @MethodSource("versions")
  void everyReleasedVersionIsReadAndWrittenOn(int version) throws IOException {
    Path file = log(version);
    try (BenchLog log = BenchLog.open(file, SumCard.CLOCK)) {
      List<RunSummary> runs = log.runs(RunFilter.real().bench(RunFilter.Bench.BOTH));
      assertThat(runs).extracting(RunSummary::end).containsOnly(RunEnd.FINISHED).hasSize(3);
      assertThat(runs).extracting(RunSummary::proved).containsExactly(true, false, true);
      assertThat(log.reworks(runs.get(0).unit()))
          .singleElement()
          .satisfies(rework -> assertThat(rework.note()).startsWith("joint of "))
          .satisfies(rework -> assertThat(rework.pictures()).isEmpty());
      List<VectorRecord> vectors = new ArrayList<>();
      log.forEachVector(1, vectors::add);
      assertThat(vectors).hasSize((int) runs.get(2).planned());
      assertThat(vectors).allMatch(vector -> vector.verdict() == Verdict.PASS);
      assertThat(vectors.stream().mapToInt(vector -> vector.moved().size()).sum())
          .isGreaterThan(100);
      assertThat(log.failures(2, 1000)).isNotEmpty();
      assertThat(log.run(2).orElseThrow().start().faults()).hasSize(1);
      assertThat(log.run(1).orElseThrow().start().note()).isEqualTo("as built");
      if (version < FIRST_WITH_TRANSITIONS) {
        assertThat(log.powerOns(1)).isEmpty();
      }
      try (RunWriter writer = log.begin(SumCard.start(UnitId.real("sum", "03")))) {
        writer.step(SumCard.step(0));
        writer.append(SumCard.judged(0, Verdict.PASS));
        writer.end(RunEnd.FINISHED, "", SumCard.NOON);
      }
      assertThat(log.runs(RunFilter.real())).hasSize(1);
    }
  }

  /** Old runs are compared with new ones by their transitions, which are worked out on reading. */
  @ParameterizedTest
  @MethodSource("versions")
  void theSameVectorIsTheSameTransitionInBothPassingRuns(int version) throws IOException {
    try (BenchLog log = BenchLog.openForReading(log(version))) {
      RunTransitions first = log.transitions(1);
      RunTransitions last = log.transitions(3);
      Set<Long> names = new HashSet<>();
      for (long vector = 0; vector < first.count(); vector++) {
        assertThat(first.of(vector)).isEqualTo(last.of(vector)).isNotZero();
        names.add(first.of(vector));
      }
      assertThat(names).hasSizeGreaterThan(50);
    }
  }
}
