package cardproof.timing;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.log.BenchLog;
import cardproof.log.LineName;
import cardproof.log.MovedLine;
import cardproof.log.RunEnd;
import cardproof.log.RunWriter;
import cardproof.log.SumCard;
import cardproof.log.UnitId;
import cardproof.log.VectorRecord;
import cardproof.log.Verdict;
import java.nio.file.Path;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

final class SilenceTest {
  private static final int S0 = SumCard.FIRST_OUTPUT;
  private static final int S1 = S0 + 1;

  @TempDir Path directory;

  private SettleTable table(VectorRecord... records) {
    try (BenchLog log = BenchLog.open(directory.resolve("sum.bench"), SumCard.CLOCK);
        RunWriter writer = log.begin(SumCard.start(UnitId.real("sum", "03")))) {
      writer.step(SumCard.step(0));
      for (VectorRecord record : records) {
        writer.append(record);
      }
      writer.end(RunEnd.FINISHED, "", SumCard.NOON);
      return SettleTable.of(log, writer.runId());
    }
  }

  private static VectorRecord vector(long number, long gapUs, MovedLine... moved) {
    BitSet none = new BitSet();
    return new VectorRecord(
        number,
        0,
        number,
        Verdict.PASS,
        "",
        0,
        300_000,
        gapUs,
        65_000,
        none,
        none,
        none,
        none,
        none,
        none,
        List.of(moved));
  }

  private static MovedLine moved(int line, long firstUs, long lastUs) {
    return new MovedLine(line, true, firstUs, lastUs, 3, 1, false, false);
  }

  private static String endedBy(SettleTable table) {
    return table.silence().orElseThrow().endedBy().map(LineName::label).orElse("nobody");
  }

  @Test
  void whatNeverMovedHasNone() {
    SettleTable table = table(vector(0, 0));
    assertThat(table.silence()).isEmpty();
    assertThat(table.isVoid()).isFalse();
  }

  /** Above 0.7 of the window is too close to it; as long as the window voids. */
  @Test
  void theVectorClosestToItsWindowIsNamed() {
    SettleTable table =
        table(
            vector(0, 45_500, moved(S0, 45_500, 50_000)),
            vector(1, 45_501, moved(S0, 45_501, 50_000)),
            vector(2, 64_999, moved(S1, 1, 65_000)));
    Silence silence = table.silence().orElseThrow();
    assertThat(silence.narrow()).isEqualTo(2);
    assertThat(silence.asLong()).isZero();
    assertThat(silence.vector()).isEqualTo(2);
    assertThat(silence.origin()).isEqualTo("plan.yaml:4#3 (called at plan.yaml:40, lib.yaml:7)");
    assertThat(table.isVoid()).isFalse();
  }

  @Test
  void oneAsLongAsTheWindowVoidsTheTimes() {
    SettleTable table = table(vector(0, 65_000, moved(S0, 65_000, 65_100)), vector(1, 9_000));
    assertThat(table.silence().orElseThrow().asLong()).isEqualTo(1);
    assertThat(table.isVoid()).isTrue();
  }

  @Test
  void theLineThatEndedItIsNamedWhereItsTimesTell() {
    assertThat(
            endedBy(table(vector(0, 40_000, moved(S1, 40_000, 90_000), moved(S0, 60_000, 61_000)))))
        .as("from the start")
        .isEqualTo("S1");
    assertThat(
            endedBy(table(vector(0, 30_001, moved(S0, 10_000, 12_000), moved(S1, 5_000, 42_000)))))
        .as("after another line")
        .isEqualTo("S1");
    assertThat(endedBy(table(vector(0, 20_000, moved(S0, 10_000, 45_000)))))
        .as("among changes that were not kept")
        .isEqualTo("nobody");
  }

  @Test
  void anUnknownRunHasNone() {
    try (BenchLog log = BenchLog.open(directory.resolve("sum.bench"), SumCard.CLOCK)) {
      assertThat(Silence.of(log, 9)).isEqualTo(Optional.empty());
    }
  }
}
