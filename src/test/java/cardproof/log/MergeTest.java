package cardproof.log;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Logs of two benches in one, and runs taken out again. */
final class MergeTest {
  private static final UnitId UNIT = UnitId.real("sum", "03");
  private static final Instant MORNING = SumCard.NOON.minusSeconds(7200);

  @TempDir Path directory;
  private Path here;
  private Path there;

  @BeforeEach
  void twoLogs() {
    here = directory.resolve("here.bench");
    there = directory.resolve("th'ere.bench");
    try (BenchLog log = BenchLog.open(here, SumCard.CLOCK)) {
      run(log, SumCard.NOON, Optional.empty());
      log.addRework(new Rework(UNIT, "K7 replaced", SumCard.NOON, List.of("k7.jpg")));
    }
    try (BenchLog log = BenchLog.open(there, SumCard.CLOCK)) {
      run(log, MORNING, Optional.empty());
      run(log, MORNING.plusSeconds(60), Optional.of(new Continues(1, 20)));
      log.addRework(new Rework(UNIT, "joint redone", MORNING, List.of("a.jpg", "b.jpg")));
    }
  }

  private static long run(BenchLog log, Instant started, Optional<Continues> continues) {
    RunAsked asked = new RunAsked(List.of("carry"), List.of(), continues);
    try (RunWriter writer = log.begin(SumCard.start(UNIT, started), asked)) {
      writer.step(SumCard.step(0));
      Random random = new Random(started.getEpochSecond());
      for (int i = 0; i < 200; i++) {
        writer.append(SumCard.passed(i, random));
      }
      writer.commit();
      writer.supersede(SumCard.judged(7, Verdict.UNSETTLED, SumCard.moved(25, true, 9)), "moved");
      writer.powerOn(new PowerOn(0, PowerOn.How.BY_HAND));
      writer.finding(0, new SupplyFinding(3, "one coil fewer"));
      writer.end(RunEnd.FINISHED, "", started.plusSeconds(30));
      return writer.runId();
    }
  }

  private static List<Object> all(BenchLog log, long run) {
    List<Object> all = new ArrayList<>();
    log.forEachVector(run, all::add);
    all.addAll(log.superseded(run));
    all.addAll(log.powerOns(run));
    all.addAll(log.supplyFindings(run));
    all.add(log.run(run).orElseThrow().start());
    all.add(log.run(run).orElseThrow().steps());
    all.add(log.run(run).orElseThrow().summary().counts());
    return all;
  }

  @Test
  void everythingOfARunComesAlongUnderAnotherNumber() {
    try (BenchLog log = BenchLog.open(here, SumCard.CLOCK);
        BenchLog other = BenchLog.openForReading(there)) {
      assertThat(log.merge(there)).isEqualTo(new Merged(2, 0, 0, 1, 0));
      assertThat(all(log, 2)).isEqualTo(all(other, 1));
      assertThat(all(log, 3)).isEqualTo(all(other, 2));
      assertThat(log.asked(3).continues()).contains(new Continues(2, 20));
      assertThat(log.asked(3).only()).containsExactly("carry");
      assertThat(log.reworks(UNIT))
          .containsExactly(
              new Rework(UNIT, "joint redone", MORNING, List.of("a.jpg", "b.jpg")),
              new Rework(UNIT, "K7 replaced", SumCard.NOON, List.of("k7.jpg")));
      assertThat(log.transitions(2).of(5)).isEqualTo(other.transitions(1).of(5));
    }
  }

  @Test
  void whatIsHereAlreadyIsNotTakenTwice() {
    try (BenchLog log = BenchLog.open(here, SumCard.CLOCK)) {
      log.merge(there);
      assertThat(log.merge(there)).isEqualTo(new Merged(0, 2, 0, 0, 1));
      assertThat(log.runs(RunFilter.real())).hasSize(3);
    }
    try (BenchLog back = BenchLog.open(there, SumCard.CLOCK)) {
      assertThat(back.merge(here)).isEqualTo(new Merged(1, 2, 0, 1, 1));
      assertThat(back.asked(2).continues()).contains(new Continues(1, 20));
    }
  }

  @Test
  void aRunThatIsBeingWrittenStaysWhereItIs() {
    try (BenchLog writing = BenchLog.open(there, SumCard.CLOCK);
        RunWriter writer = writing.begin(SumCard.start(UNIT));
        BenchLog log = BenchLog.open(here, SumCard.CLOCK)) {
      assertThat(log.merge(there).unfinished()).isEqualTo(1);
      assertThat(writer.runId()).isEqualTo(3);
      assertThat(log.runs(RunFilter.real())).hasSize(3);
    }
  }

  @Test
  void anEarlierLogIsTakenAndAForeignOneIsRefused() throws Exception {
    Path old = directory.resolve("old.bench");
    new LogFile(old, 1000, new Schema(Schema.current().scripts().subList(0, 2)))
        .openForWriting()
        .close();
    Path foreign = directory.resolve("foreign");
    Files.writeString(foreign, "card: sum\n".repeat(200));
    try (BenchLog log = BenchLog.open(here, SumCard.CLOCK)) {
      assertThat(log.merge(old)).isEqualTo(new Merged(0, 0, 0, 0, 0));
      assertThatThrownBy(() -> log.merge(foreign))
          .isInstanceOf(LogException.class)
          .hasMessageContaining("this is not a database; wanted a bench log");
      assertThat(log.runs(RunFilter.real())).hasSize(1);
    }
  }

  @Test
  void forgottenRunsAreGoneAndTheirChainsStayWhole() throws Exception {
    try (BenchLog log = BenchLog.open(there, SumCard.CLOCK)) {
      run(log, SumCard.NOON, Optional.of(new Continues(2, 150)));
      long lone = run(log, MORNING.plusSeconds(90), Optional.empty());
      assertThat(log.forgettable(SumCard.NOON))
          .as("1 and 2 are gone on from by 3, which is later")
          .containsExactly(lone);
      long bytes = Files.size(there);
      log.forget(log.forgettable(SumCard.NOON.plusSeconds(1)));
      assertThat(log.runs(RunFilter.real())).isEmpty();
      assertThat(log.reworks(UNIT)).hasSize(1);
      assertThat(Files.size(there)).isLessThan(bytes);
      try (Db db = new LogFile(there, 1000, Schema.current()).openForReading()) {
        assertThat(RunTables.names(db)).hasSizeGreaterThan(14);
        for (String table : RunTables.names(db)) {
          assertThat(db.number("SELECT count(*) FROM " + table)).as(table).isZero();
        }
      }
    }
  }
}
