package cardproof.system;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.cli.RunInside;
import cardproof.log.BenchLog;
import cardproof.log.RunDetail;
import cardproof.log.RunFilter;
import cardproof.log.RunSummary;
import cardproof.log.VectorRecord;
import cardproof.log.Verdict;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.stream.LongStream;

/**
 * The records of a run that nothing broke, against which those of broken and continued ones are
 * held; and for the latch card the rule that nothing is known of a register before it was loaded.
 */
final class Unbroken {
  /** Lines of the latch card in its order: LD, D[0..3], Q[0..3]. */
  private static final int LD = 0;

  private static final int Q = 5;

  private final List<VectorRecord> unbroken;

  private Unbroken(List<VectorRecord> unbroken) {
    this.unbroken = unbroken;
  }

  /**
   * After one run on the simulated bench.
   *
   * @param plan and more options of the run
   */
  static Unbroken run(Path folder, String... plan) {
    Path log = folder.resolve("unbroken.sqlite");
    List<String> words = new ArrayList<>(List.of("run"));
    words.addAll(List.of(plan));
    words.addAll(List.of("--log", log.toString()));
    RunInside run = RunInside.of(words.toArray(new String[0]));
    assertThat(run.exit()).as(run.toString()).isZero();
    return new Unbroken(all(log, 1));
  }

  int vectors() {
    return unbroken.size();
  }

  private static List<VectorRecord> all(Path log, long run) {
    List<VectorRecord> records = new ArrayList<>();
    try (BenchLog bench = BenchLog.openForReading(log)) {
      bench.forEachVectorOfAll(run, records::add);
    }
    return records;
  }

  /** The last run of the log and those it continues have together what an unbroken one has. */
  void assertWhole(Path log, String as) {
    try (BenchLog bench = BenchLog.openForReading(log)) {
      List<RunSummary> runs = bench.runs(RunFilter.real());
      long last = runs.stream().mapToLong(RunSummary::id).max().orElseThrow();
      List<VectorRecord> union = all(log, last);
      assertThat(union.stream().map(VectorRecord::number))
          .as(as)
          .isEqualTo(LongStream.range(0, vectors()).boxed().toList());
      for (int i = 0; i < union.size(); i++) {
        VectorRecord one = union.get(i);
        VectorRecord other = unbroken.get(i);
        assertThat(one.verdict()).as("%s, vector %d: %s", as, i, one).isEqualTo(Verdict.PASS);
        assertThat(one.driven()).as("%s, vector %d", as, i).isEqualTo(other.driven());
        assertThat(one.level()).as("%s, vector %d", as, i).isEqualTo(other.level());
        assertThat(one.cared()).as("%s, vector %d", as, i).isEqualTo(other.cared());
        assertThat(one.wanted()).as("%s, vector %d", as, i).isEqualTo(other.wanted());
        assertThat(and(one.seen(), one.cared()))
            .as("%s, vector %d", as, i)
            .isEqualTo(and(other.seen(), other.cared()));
      }
    }
  }

  /** In no run was the register judged before that run had loaded it. */
  void assertNothingJudgedUnknown(Path log, String as) {
    try (BenchLog bench = BenchLog.openForReading(log)) {
      for (RunSummary run : bench.runs(RunFilter.real())) {
        boolean[] loaded = new boolean[1];
        bench.forEachVector(
            run.id(),
            vector -> {
              loaded[0] |= vector.level().get(LD);
              if (!loaded[0]) {
                assertThat(vector.cared().nextSetBit(Q))
                    .as("%s: run %d judges a register that nothing has loaded", as, run.id())
                    .isNegative();
              }
              if (vector.verdict() == Verdict.PASS) {
                assertThat(and(vector.seen(), vector.cared()))
                    .as("%s: %s", as, vector)
                    .isEqualTo(and(vector.wanted(), vector.cared()));
              }
            });
      }
    }
  }

  private static BitSet and(BitSet one, BitSet other) {
    BitSet both = (BitSet) one.clone();
    both.and(other);
    return both;
  }

  /** The run of the log that was begun last. */
  static RunDetail last(Path log) {
    try (BenchLog bench = BenchLog.openForReading(log)) {
      long id = bench.runs(RunFilter.real()).stream().mapToLong(RunSummary::id).max().orElseThrow();
      return bench.run(id).orElseThrow();
    }
  }

  /** How many vectors of that run have this verdict. */
  static long count(Path log, Verdict verdict) {
    return last(log).summary().counts().get(verdict);
  }
}
