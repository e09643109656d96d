package cardproof.log;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

final class BenchLogTest {
  private static final UnitId REAL = UnitId.real("sum", "03");
  private static final UnitId SIMULATED = UnitId.simulated("sum", "03");
  private static final Instant LATER = SumCard.NOON.plusSeconds(90);

  @TempDir Path directory;
  private Path file;
  private BenchLog log;

  @BeforeEach
  void open() {
    file = directory.resolve("sum.bench");
    log = BenchLog.open(file, SumCard.CLOCK);
  }

  @AfterEach
  void close() {
    log.close();
  }

  private long finished(RunStart start, Verdict... verdicts) {
    try (RunWriter writer = log.begin(start)) {
      writer.step(SumCard.step(0));
      for (int i = 0; i < verdicts.length; i++) {
        writer.append(SumCard.judged(i, verdicts[i]));
        writer.commit();
      }
      writer.end(RunEnd.FINISHED, "", LATER);
      return writer.runId();
    }
  }

  @Test
  void aRunIsReadBackAsItWasBegun() {
    RunStart start = SumCard.start(SIMULATED);
    long run = finished(start, Verdict.PASS);
    RunDetail detail = log.run(run).orElseThrow();
    assertThat(detail.start()).isEqualTo(start);
    assertThat(detail.steps()).containsExactly(SumCard.step(0));
    assertThat(detail.summary().ended()).contains(LATER);
    assertThat(detail.summary().proved()).isTrue();
    assertThat(log.lines(run)).hasSize(38).last().extracting(LineName::pin).isEqualTo("J5.1");
  }

  @Test
  void whatIsNotThereIsEmpty() {
    assertThat(log.run(7)).isEmpty();
    assertThat(log.lines(7)).isEmpty();
    assertThat(log.vector(7, 0)).isEmpty();
    assertThat(log.failures(7, 10)).isEmpty();
    assertThat(log.runs(RunFilter.real())).isEmpty();
  }

  @Test
  void aSimulatedUnitNeverMixesWithARealOneOfTheSameName() {
    long real = finished(SumCard.start(REAL), Verdict.PASS);
    long simulated = finished(SumCard.start(SIMULATED), Verdict.WRONG);
    log.addRework(REAL, "K7 replaced", LATER);
    log.addRework(SIMULATED, "fault taken out", LATER);

    assertThat(ids(RunFilter.real())).containsExactly(real);
    assertThat(ids(RunFilter.real().card("sum").unit("03"))).containsExactly(real);
    assertThat(ids(RunFilter.of(REAL))).containsExactly(real);
    assertThat(ids(RunFilter.of(SIMULATED))).containsExactly(simulated);
    assertThat(ids(RunFilter.real().bench(RunFilter.Bench.BOTH))).containsExactly(simulated, real);
    assertThat(log.reworks(REAL))
        .containsExactly(new Rework(REAL, "K7 replaced", LATER, List.of()));
    assertThat(log.reworks(SIMULATED)).extracting(Rework::note).containsExactly("fault taken out");
  }

  @Test
  void powerClocksAndPicturesAreKept() {
    try (RunWriter writer = log.begin(SumCard.start(REAL))) {
      writer.powerOn(new PowerOn(0, PowerOn.How.FOUND_ON));
      writer.powerOn(new PowerOn(7, PowerOn.How.BY_HAND));
      writer.clockOff(-4_800);
      writer.end(RunEnd.FINISHED, "", LATER);
    }
    log.addRework(new Rework(REAL, "K7 replaced", LATER, List.of("k7.jpg", "joints/j4.3.jpg")));

    assertThat(log.powerOns(1))
        .containsExactly(new PowerOn(0, PowerOn.How.FOUND_ON), new PowerOn(7, PowerOn.How.BY_HAND));
    assertThat(log.clockOffPpm(1)).hasValue(-4_800);
    assertThat(log.clockOffPpm(finished(SumCard.start(REAL), Verdict.PASS))).isEmpty();
    assertThat(log.reworks(REAL).get(0).pictures()).containsExactly("k7.jpg", "joints/j4.3.jpg");
  }

  @Test
  void runsAreListedNewestFirstAndFiltered() {
    long first = finished(SumCard.start(REAL), Verdict.PASS);
    long second = finished(SumCard.start(UnitId.real("sum", "04"), LATER), Verdict.PASS);
    long third = finished(SumCard.start(UnitId.real("hold", "03"), LATER), Verdict.PASS);

    assertThat(ids(RunFilter.real())).containsExactly(third, second, first);
    assertThat(ids(RunFilter.real().card("sum"))).containsExactly(second, first);
    assertThat(ids(RunFilter.real().unit("03"))).containsExactly(third, first);
    assertThat(ids(RunFilter.real().since(LATER))).containsExactly(third, second);
    assertThat(ids(RunFilter.real().limit(1))).containsExactly(third);
  }

  private List<Long> ids(RunFilter filter) {
    return log.runs(filter).stream().map(RunSummary::id).toList();
  }

  @Test
  void verdictsAreCountedWhileRunningAndAfter() {
    RunWriter writer = log.begin(SumCard.start(REAL));
    writer.step(SumCard.step(0));
    Verdict[] verdicts = Verdict.values();
    for (int i = 0; i < 2 * verdicts.length; i++) {
      writer.append(SumCard.judged(i, verdicts[i % verdicts.length]));
    }
    writer.commit();
    RunSummary open = log.runs(RunFilter.real()).get(0);
    writer.end(RunEnd.STOPPED, "by the operator", LATER);
    RunSummary ended = log.runs(RunFilter.real()).get(0);

    assertThat(open.end()).isEqualTo(RunEnd.RUNNING);
    assertThat(open.counts()).hasSize(9).allSatisfy((verdict, n) -> assertThat(n).isEqualTo(2));
    assertThat(ended.counts()).isEqualTo(open.counts());
    assertThat(ended.vectors()).isEqualTo(18);
    assertThat(ended.worst()).contains(Verdict.CHATTER);
    assertThat(ended.proved()).isFalse();
    assertThat(ended.why()).isEqualTo("by the operator");
  }

  @Test
  void failuresAreThoseThatDidNotPass() {
    long run =
        finished(SumCard.start(REAL), Verdict.PASS, Verdict.LATE, Verdict.PASS, Verdict.UNTESTED);
    assertThat(log.failures(run, 10)).extracting(VectorRecord::number).containsExactly(1L, 3L);
    assertThat(log.failures(run, 1)).containsExactly(SumCard.judged(1, Verdict.LATE));
  }

  @Test
  void manyVectorsComeBackInOrderWhereverTheirMovedLinesLie() {
    Random random = new Random(20260301);
    List<VectorRecord> written = new ArrayList<>();
    long run;
    try (RunWriter writer = log.begin(SumCard.start(REAL))) {
      run = writer.runId();
      writer.step(SumCard.step(0));
      for (int i = 0; i < 3 * MovedWriter.SORT_AFTER + 100; i++) {
        written.add(SumCard.passed(i, random));
        writer.append(written.get(i));
        writer.commit();
      }
      assertThat(vectors(run)).isEqualTo(written);
      assertThat(movements(run, 30, true)).isEqualTo(expectedMovements(written, 30, true));
      writer.end(RunEnd.FINISHED, "", LATER);
    }
    assertThat(vectors(run)).isEqualTo(written);
    assertThat(movements(run, 37, false)).isEqualTo(expectedMovements(written, 37, false));
    assertThat(log.vector(run, 300)).contains(written.get(300));
  }

  private List<VectorRecord> vectors(long run) {
    List<VectorRecord> all = new ArrayList<>();
    log.forEachVector(run, all::add);
    return all;
  }

  private List<LineMovement> movements(long run, int line, boolean endsHigh) {
    List<LineMovement> all = new ArrayList<>();
    log.forEachMovement(run, line, endsHigh, all::add);
    return all;
  }

  private static List<LineMovement> expectedMovements(
      List<VectorRecord> records, int line, boolean endsHigh) {
    return records.stream()
        .flatMap(r -> r.moved().stream().map(m -> new LineMovement(r.number(), m)))
        .filter(m -> m.moved().line() == line && m.moved().endsHigh() == endsHigh)
        .toList();
  }

  @Test
  void whatALaterRecordReplacesIsKept() {
    VectorRecord first = SumCard.judged(0, Verdict.PASS, SumCard.moved(25, true, 20_000));
    VectorRecord second = SumCard.judged(0, Verdict.UNSETTLED, SumCard.moved(25, false, 400_000));
    VectorRecord third = SumCard.judged(0, Verdict.CHATTER, SumCard.stillMoving(26, true, 9));
    try (RunWriter writer = log.begin(SumCard.start(REAL))) {
      writer.step(SumCard.step(0));
      writer.append(first);
      writer.commit();
      writer.supersede(second, "S0 moved after the result");
      for (int i = 1; i <= MovedWriter.SORT_AFTER; i++) {
        writer.append(SumCard.judged(i, Verdict.PASS));
      }
      writer.commit();
      writer.supersede(third, "and again");
      writer.end(RunEnd.FINISHED, "", LATER);
      long run = writer.runId();

      assertThat(log.vector(run, 0)).contains(third);
      assertThat(log.superseded(run))
          .containsExactly(
              new Superseded(0, first, "S0 moved after the result"),
              new Superseded(1, second, "and again"));
      assertThat(log.supersededCount(run)).isEqualTo(2);
      assertThat(movements(run, 25, true)).isEmpty();
      assertThat(movements(run, 25, false)).isEmpty();
      assertThat(log.run(run).orElseThrow().summary().counts())
          .containsEntry(Verdict.CHATTER, 1L)
          .containsEntry(Verdict.UNSETTLED, 0L);
    }
  }

  @Test
  void aReaderSeesWhatIsCommittedAndNoMore() {
    try (RunWriter writer = log.begin(SumCard.start(REAL));
        BenchLog reader = BenchLog.openForReading(file)) {
      writer.step(SumCard.step(0));
      writer.append(SumCard.judged(0, Verdict.PASS));
      writer.commit();
      writer.append(SumCard.judged(1, Verdict.PASS));
      assertThat(reader.runs(RunFilter.real()).get(0).vectors()).isEqualTo(1);
      writer.commit();
      assertThat(reader.runs(RunFilter.real()).get(0).vectors()).isEqualTo(2);
    }
  }

  @Test
  void aReaderCannotWrite() {
    try (BenchLog reader = BenchLog.openForReading(file)) {
      assertThatThrownBy(() -> reader.addRework(REAL, "K7 replaced", LATER))
          .isInstanceOf(LogException.class)
          .hasMessageContaining("read-only");
    }
  }

  @Test
  void aRunThatNobodyEndsHasFailed() {
    RunWriter writer = log.begin(SumCard.start(REAL));
    writer.step(SumCard.step(0));
    writer.append(SumCard.judged(0, Verdict.PASS));
    writer.close();
    RunSummary summary = log.runs(RunFilter.real()).get(0);
    assertThat(summary.end()).isEqualTo(RunEnd.FAILED);
    assertThat(summary.why()).isEqualTo("closed before its end");
    assertThat(summary.ended()).contains(SumCard.NOON);
    assertThat(summary.vectors()).isEqualTo(1);
  }

  @Test
  void misuseIsRefused() {
    RunWriter writer = log.begin(SumCard.start(REAL));
    VectorRecord vector = SumCard.judged(0, Verdict.PASS);
    assertThatThrownBy(() -> writer.append(vector)).hasMessage("step 0 was not told of");
    writer.step(SumCard.step(0));
    assertThatThrownBy(() -> writer.step(SumCard.step(0))).hasMessage("step 0 is told of twice");
    assertThatThrownBy(
            () -> writer.append(SumCard.judged(0, Verdict.PASS, SumCard.moved(38, true, 1))))
        .hasMessage("line 38 of 38");
    assertThatThrownBy(() -> writer.supersede(vector, "")).hasMessage("no vector 0 so far");
    assertThatThrownBy(() -> log.begin(SumCard.start(REAL))).hasMessage("run 1 has not ended");
    for (RunEnd end : List.of(RunEnd.RUNNING, RunEnd.INTERRUPTED)) {
      assertThatThrownBy(() -> writer.end(end, "", LATER))
          .isInstanceOf(IllegalArgumentException.class);
    }
    writer.end(RunEnd.FINISHED, "", LATER);
    assertThatThrownBy(writer::commit).hasMessage("run 1 has ended");
    assertThat(log.begin(SumCard.start(REAL)).runId()).isEqualTo(2);
  }

  @Test
  void everyEndIsReadBack() {
    for (RunEnd end : RunEnd.values()) {
      if (end.isFinal()) {
        try (RunWriter writer = log.begin(SumCard.start(REAL))) {
          writer.end(end, end.word(), LATER);
          assertThat(log.run(writer.runId()).map(RunDetail::summary))
              .map(RunSummary::end)
              .isEqualTo(Optional.of(end));
        }
      }
    }
  }

  @Test
  void verdictsAreOrderedAsTheyOutrankEachOther() {
    assertThat(Arrays.stream(Verdict.values()).map(Verdict::word))
        .containsExactly(
            "chatter",
            "supply",
            "unsettled",
            "wrong",
            "late",
            "disturbed",
            "untested",
            "pass",
            "measured");
  }
}
