package cardproof.log;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.BitSet;
import java.util.List;
import java.util.OptionalLong;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

final class TransitionsTest {
  private static final BitSet NONE = new BitSet();
  private static final BitSet ALL = BitSet.valueOf(new long[] {0xfff});
  private static final BitSet ONE = BitSet.valueOf(new long[] {1});

  private final Transitions transitions = new Transitions();

  private long next(BitSet level, BitSet seenBefore) {
    return transitions.next(ALL, level, seenBefore, Verdict.PASS).orElseThrow();
  }

  @Test
  void theSameWayFromTheSameStateIsTheSameTransitionAndNothingElseIs() {
    next(NONE, NONE);
    long up = next(ONE, NONE);
    long down = next(NONE, ONE);
    assertThat(next(ONE, NONE)).isEqualTo(up);
    assertThat(next(NONE, ONE)).isEqualTo(down).isNotEqualTo(up);
    assertThat(next(ONE, ONE)).as("from another state").isNotEqualTo(up);
    assertThat(next(ONE, NONE)).as("from another drive").isNotEqualTo(up);
  }

  /** A vector that may never have been driven leaves it open what the next one came from. */
  @Test
  void nothingIsKnownRightAfterAVectorThatWasNotTested() {
    next(NONE, NONE);
    long up = next(ONE, NONE);
    next(NONE, ONE);
    assertThat(transitions.next(ALL, NONE, NONE, Verdict.UNTESTED)).isEmpty();
    assertThat(transitions.next(ALL, NONE, NONE, Verdict.PASS)).isEmpty();
    assertThat(transitions.next(ALL, ONE, NONE, Verdict.PASS)).isEqualTo(OptionalLong.of(up));
  }

  /**
   * Names have to stay what they are, or old runs have no repeats: the first eight bytes of SHA-256
   * (FIPS 180-4) of 00 00 00, 02 FF 0F, 00, by another implementation.
   */
  @Test
  void namesStayAsTheyWereReleased() {
    assertThat(next(NONE, NONE)).isEqualTo(8796947038641347258L);
  }

  @Test
  void aRunThatWasLoggedBeforeTheyWereKeptHasTheSameOnes(@TempDir Path directory) {
    Path file = directory.resolve("sum.bench");
    try (BenchLog log = BenchLog.open(file, SumCard.CLOCK);
        RunWriter writer = log.begin(SumCard.start(UnitId.real("sum", "03")))) {
      writer.step(SumCard.step(0));
      Random random = new Random(4);
      for (int i = 0; i < 40; i++) {
        writer.append(SumCard.passed(i, random));
      }
      writer.end(RunEnd.FINISHED, "", SumCard.NOON);
    }
    List<Long> kept = names(file);
    try (Db db = new LogFile(file, 1000, Schema.current()).openForWriting()) {
      db.update("UPDATE vector SET transition = NULL");
    }
    assertThat(names(file)).isEqualTo(kept).hasSize(40).doesNotHaveDuplicates();
  }

  private static List<Long> names(Path file) {
    try (BenchLog log = BenchLog.openForReading(file)) {
      RunTransitions transitions = log.transitions(1);
      assertThat(transitions.of(40)).isEqualTo(RunTransitions.UNKNOWN);
      return LongStream.range(0, 40).map(transitions::of).boxed().toList();
    }
  }
}
