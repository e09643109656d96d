package cardproof.timing.history;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.log.BenchLog;
import cardproof.log.LineName;
import cardproof.log.MovedLine;
import cardproof.log.RunEnd;
import cardproof.log.RunWriter;
import cardproof.log.SumCard;
import cardproof.log.UnitId;
import cardproof.log.Verdict;
import cardproof.timing.SettleTimes;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

final class SettleHistoryTest {
  private static final int S0 = SumCard.FIRST_OUTPUT;
  private static final Predicate<LineName> ALL = line -> true;

  @TempDir Path directory;

  private Path file() {
    return directory.resolve("sum.bench");
  }

  /** Vectors of the same number are the same transition in each of these runs. */
  private void run(BenchLog log, MovedLine... oneAVector) {
    try (RunWriter writer = log.begin(SumCard.start(UnitId.real("sum", "03")))) {
      writer.step(SumCard.step(0));
      for (int i = 0; i < oneAVector.length; i++) {
        writer.append(SumCard.judged(i, Verdict.PASS, oneAVector[i]));
      }
      writer.end(RunEnd.FINISHED, "", SumCard.NOON);
    }
  }

  private static List<TransitionRow> rows(LineHistory line) {
    List<TransitionRow> rows = new ArrayList<>();
    line.forEachTransition(rows::add);
    return rows;
  }

  @Test
  void repeatsOfATransitionAreFoundOverRuns() {
    try (BenchLog log = BenchLog.open(file(), SumCard.CLOCK)) {
      run(log, SumCard.moved(S0, true, 20_000), SumCard.moved(S0, true, 90_000));
      run(log, SumCard.moved(S0, true, 24_000), SumCard.stillMoving(S0, true, 350_000));
      run(log, SumCard.moved(S0, true, 22_000), SumCard.moved(S0, false, 9_000));
    }
    List<LineHistory> lines = SettleHistory.of(file(), List.of(3L, 2L, 1L), ALL).lines();
    assertThat(lines).extracting(LineHistory::endsHigh).containsExactly(false, true);
    List<TransitionRow> rising = rows(lines.get(1));
    assertThat(rising).hasSize(2);
    TransitionRow first = rising.get(0);
    assertThat(first.times()).contains(new SettleTimes(3, 20_000, 22_000, 24_000, 24_000));
    assertThat(first.run()).as("the first that was read").isEqualTo(3);
    TransitionRow second = rising.get(1);
    assertThat(second.vector()).isEqualTo(1);
    assertThat(second.n()).isEqualTo(2);
    assertThat(second.censored()).isEqualTo(1);
    assertThat(second.slowestUs()).isInfinite();
    assertThat(lines.get(1).pooled().n()).isEqualTo(4);
    assertThat(lines.get(1).pooled().censored()).isEqualTo(1);
  }

  @Test
  void manyRunsReadOnSeveralThreadsGiveTheSame() {
    int runs = 200;
    try (BenchLog log = BenchLog.open(file(), SumCard.CLOCK)) {
      for (int i = 0; i < runs; i++) {
        run(
            log,
            SumCard.moved(S0, i % 2 == 0, 10_000 + i),
            SumCard.moved(S0 + i % 3, true, 50_000 + i));
      }
    }
    List<Long> newestFirst =
        LongStream.rangeClosed(1, runs).map(i -> runs + 1 - i).boxed().toList();
    List<String> atOnce = figures(SettleHistory.of(file(), newestFirst, ALL));
    List<List<LineHistory>> oneByOne =
        newestFirst.stream()
            .map(run -> SettleHistory.of(file(), List.of(run), ALL).lines())
            .toList();
    long n = oneByOne.stream().flatMap(List::stream).mapToLong(LineHistory::count).sum();
    assertThat(n).isEqualTo(2L * runs);
    assertThat(atOnce)
        .containsExactlyInAnyOrder(
            "S0 false: 100, 10001.0 to 10199.0 of run 200",
            "S0 true: 100, 10000.0 to 10198.0 of run 200",
            "S0 true: 67, 50000.0 to 50198.0 of run 200",
            "S1 true: 67, 50001.0 to 50199.0 of run 200",
            "S2 true: 66, 50002.0 to 50197.0 of run 200");
  }

  private static List<String> figures(SettleHistory history) {
    List<String> figures = new ArrayList<>();
    for (LineHistory line : history.lines()) {
      for (TransitionRow row : rows(line)) {
        SettleTimes times = row.times().orElseThrow();
        figures.add(
            String.format(
                "%s %s: %d, %s to %s of run %s",
                line.line().label(),
                line.endsHigh(),
                times.n(),
                times.minUs(),
                times.maxUs(),
                row.run()));
      }
    }
    return figures;
  }

  @Test
  void onlyTheLinesThatAreWanted() {
    try (BenchLog log = BenchLog.open(file(), SumCard.CLOCK)) {
      run(log, SumCard.moved(S0, true, 20_000), SumCard.moved(S0 + 1, true, 90_000));
    }
    List<LineHistory> lines =
        SettleHistory.of(file(), List.of(1L), line -> line.label().equals("S1")).lines();
    assertThat(lines).extracting(line -> line.line().label()).containsExactly("S1");
  }
}
