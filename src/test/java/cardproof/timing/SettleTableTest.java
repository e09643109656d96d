package cardproof.timing;

import static cardproof.log.SumCard.moved;
import static cardproof.log.SumCard.stillMoving;
import static org.assertj.core.api.Assertions.assertThat;

import cardproof.log.BenchLog;
import cardproof.log.RunEnd;
import cardproof.log.RunWriter;
import cardproof.log.SumCard;
import cardproof.log.UnitId;
import cardproof.log.VectorRecord;
import cardproof.log.Verdict;
import java.nio.file.Path;
import java.util.Optional;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

final class SettleTableTest {
  private static final int S0 = SumCard.FIRST_OUTPUT;
  private static final int CO = SumCard.LINES - 1;
  private static final int A0 = 0;

  @TempDir Path directory;

  private SettleTable table(Consumer<RunWriter> vectors) {
    try (BenchLog log = BenchLog.open(directory.resolve("sum.bench"), SumCard.CLOCK);
        RunWriter writer = log.begin(SumCard.start(UnitId.real("sum", "03")))) {
      writer.step(SumCard.step(0));
      vectors.accept(writer);
      writer.end(RunEnd.FINISHED, "", SumCard.NOON);
      return SettleTable.of(log, writer.runId());
    }
  }

  private SettleTable table(VectorRecord... records) {
    return table(
        writer -> {
          for (VectorRecord record : records) {
            writer.append(record);
          }
        });
  }

  private static SettleRow row(int line, boolean high, SettleTimes times, long censored) {
    return new SettleRow(SumCard.lines().get(line), high, Optional.ofNullable(times), censored);
  }

  @Test
  void directionsAreApartAndLinesInOrder() {
    SettleTable table =
        table(
            SumCard.judged(0, Verdict.PASS, moved(CO, true, 90), moved(S0, true, 30)),
            SumCard.judged(1, Verdict.PASS, moved(S0, false, 50)),
            SumCard.judged(2, Verdict.PASS, moved(S0, true, 40)));
    assertThat(table.rows())
        .containsExactly(
            row(S0, false, new SettleTimes(1, 50, 50, 50, 50), 0),
            row(S0, true, new SettleTimes(2, 30, 35, 40, 40), 0),
            row(CO, true, new SettleTimes(1, 90, 90, 90, 90), 0));
    assertThat(table.isVoid()).isFalse();
  }

  @Test
  void everyVerdictsTimesStayIn() {
    VectorRecord[] records = new VectorRecord[Verdict.values().length];
    for (int i = 0; i < records.length; i++) {
      records[i] = SumCard.judged(i, Verdict.values()[i], moved(S0, true, 100 + i));
    }
    int n = records.length;
    double last = 99.0 + n;
    assertThat(table(records).rows())
        .containsExactly(row(S0, true, new SettleTimes(n, 100, (100 + last) / 2, last, last), 0));
  }

  @Test
  void aLineStillMovingIsCountedAndNotAveraged() {
    SettleTable table =
        table(
            SumCard.judged(0, Verdict.PASS, moved(S0, true, 30)),
            SumCard.judged(1, Verdict.UNSETTLED, stillMoving(S0, true, 350_000)),
            SumCard.judged(2, Verdict.CHATTER, stillMoving(S0, true, 1), moved(CO, true, 7)),
            SumCard.judged(3, Verdict.CHATTER, stillMoving(CO, false, 9)));
    assertThat(table.rows())
        .containsExactly(
            row(S0, true, new SettleTimes(1, 30, 30, 30, 30), 2),
            row(CO, false, null, 1),
            row(CO, true, new SettleTimes(1, 7, 7, 7, 7), 0));
  }

  @Test
  void linesThatAreNotWatchedAreLeftOut() {
    assertThat(table(SumCard.judged(0, Verdict.PASS, moved(A0, true, 30))).rows()).isEmpty();
  }

  @Test
  void aLaterMovementCountsInsteadOfTheFirstAndVoidsTheRun() {
    SettleTable table =
        table(
            writer -> {
              writer.append(SumCard.judged(0, Verdict.PASS, moved(S0, true, 30)));
              writer.supersede(
                  SumCard.judged(0, Verdict.UNSETTLED, stillMoving(S0, false, 80)), "S0 moved");
            });
    assertThat(table.rows()).containsExactly(row(S0, false, null, 1));
    assertThat(table.isVoid()).isTrue();
  }

  @Test
  void aRunThatIsNotThereHasNoRows() {
    try (BenchLog log = BenchLog.open(directory.resolve("sum.bench"), SumCard.CLOCK)) {
      assertThat(SettleTable.of(log, 9).rows()).isEmpty();
    }
  }
}
