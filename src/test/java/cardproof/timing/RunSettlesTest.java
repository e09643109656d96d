package cardproof.timing;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.log.BenchLog;
import cardproof.log.MovedLine;
import cardproof.log.RunEnd;
import cardproof.log.RunWriter;
import cardproof.log.SumCard;
import cardproof.log.UnitId;
import cardproof.log.Verdict;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

final class RunSettlesTest {
  private static final int S0 = SumCard.FIRST_OUTPUT;

  @TempDir Path directory;

  @Test
  void aLineAndADirectionAtATimeWithWhatEachTimeBelongsTo() {
    try (BenchLog log = BenchLog.open(directory.resolve("sum.bench"), SumCard.CLOCK);
        RunWriter writer = log.begin(SumCard.start(UnitId.real("sum", "03")))) {
      writer.step(SumCard.step(0));
      writer.append(SumCard.judged(0, Verdict.PASS, SumCard.moved(S0, true, 30_000)));
      writer.append(
          SumCard.judged(
              1,
              Verdict.LATE,
              SumCard.moved(S0, true, 42_000),
              SumCard.stillMoving(S0 + 1, false, 350_000)));
      writer.append(
          SumCard.judged(2, Verdict.PASS, new MovedLine(S0, true, 1, 1, 1, 1, false, true)));
      writer.end(RunEnd.FINISHED, "", SumCard.NOON);

      List<LineSettles> found = new ArrayList<>();
      RunSettles.forEach(log, 1, found::add);
      assertThat(found).hasSize(2);
      LineSettles rising = found.get(0);
      assertThat(rising.line().label()).isEqualTo("S0");
      assertThat(rising.endsHigh()).isTrue();
      assertThat(rising.count()).as("the fixture's own move is none").isEqualTo(2);
      assertThat(rising.vector(1)).isEqualTo(1);
      assertThat(rising.settleUs(1)).isEqualTo(42_000);
      assertThat(rising.censored(1)).isFalse();
      assertThat(rising.transition(1))
          .isEqualTo(log.transitions(1).of(1))
          .isNotEqualTo(rising.transition(0));
      assertThat(RunSettles.isVoid(log, 1)).isEqualTo(SettleTable.of(log, 1).isVoid()).isFalse();
      assertThat(found.get(1).endsHigh()).isFalse();
      assertThat(found.get(1).censored(0)).isTrue();
    }
  }
}
