package cardproof.log;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** SQLite's own page limit gives the same failure, SQLITE_FULL, as a disk without room. */
final class DiskFullTest {
  private static final String TOLD =
      "sum.bench: the disk is full; the last vectors could not be recorded."
          + " Everything recorded before is safe. Make room, then run the plan again.";

  @TempDir Path directory;

  @Test
  void isToldAndWhatWasCommittedStays() {
    Path file = directory.resolve("sum.bench");
    List<VectorRecord> committed = new ArrayList<>();
    Db db = new LogFile(file, 1000, Schema.current()).openForWriting();
    BenchLog log = new BenchLog(db, SumCard.CLOCK, ProcessStamp.own());
    RunWriter writer = log.begin(SumCard.start(UnitId.real("sum", "03")));
    writer.step(SumCard.step(0));
    writer.commit();
    db.script("PRAGMA max_page_count = " + (db.number("PRAGMA page_count") + 20));

    assertThatThrownBy(() -> appendForEver(writer, committed))
        .isInstanceOf(LogException.class)
        .hasMessageEndingWith(TOLD);
    assertThat(committed).hasSizeGreaterThan(50);
    assertThatThrownBy(writer::commit).hasMessageEndingWith(TOLD);
    assertThat(read(log, writer.runId())).isEqualTo(committed);

    db.script("PRAGMA max_page_count = 1000000");
    log.close();
    try (BenchLog again = BenchLog.openForReading(file)) {
      RunSummary summary = again.runs(RunFilter.real()).get(0);
      assertThat(summary.end()).isEqualTo(RunEnd.FAILED);
      assertThat(summary.why()).endsWith(TOLD);
      assertThat(summary.vectors()).isEqualTo(committed.size());
      assertThat(read(again, summary.id())).isEqualTo(committed);
    }
  }

  @Test
  void aFailureIsWrittenDownEvenWhileTheDiskIsFull() {
    Path file = directory.resolve("sum.bench");
    List<VectorRecord> committed = new ArrayList<>();
    Db db = new LogFile(file, 1000, Schema.current()).openForWriting();
    try (BenchLog log = new BenchLog(db, SumCard.CLOCK, ProcessStamp.own())) {
      RunWriter writer = log.begin(SumCard.start(UnitId.real("sum", "03")));
      writer.step(SumCard.step(0));
      writer.commit();
      db.script("PRAGMA max_page_count = " + (db.number("PRAGMA page_count") + 10));
      assertThatThrownBy(() -> appendForEver(writer, committed)).hasMessageEndingWith(TOLD);
    }
    try (BenchLog again = BenchLog.openForReading(file)) {
      assertThat(again.runs(RunFilter.real()).get(0).end()).isEqualTo(RunEnd.FAILED);
      assertThat(read(again, 1)).isEqualTo(committed);
    }
  }

  @Test
  void anEndThatCannotBeWrittenIsTold() {
    Path file = directory.resolve("sum.bench");
    Db db = new LogFile(file, 1000, Schema.current()).openForWriting();
    BenchLog log = new BenchLog(db, SumCard.CLOCK, ProcessStamp.own());
    RunWriter writer = log.begin(SumCard.start(UnitId.real("sum", "03")));
    db.script("PRAGMA query_only = ON");
    assertThatThrownBy(() -> writer.end(RunEnd.FINISHED, "", SumCard.NOON))
        .hasMessageContaining("read-only");
    assertThatThrownBy(log::close).hasMessageContaining("read-only");
    try (BenchLog again = BenchLog.openForReading(file)) {
      assertThat(again.runs(RunFilter.real()).get(0).end()).isEqualTo(RunEnd.RUNNING);
    }
  }

  private static void appendForEver(RunWriter writer, List<VectorRecord> committed) {
    Random random = new Random(3);
    for (long number = 0; ; number++) {
      VectorRecord record = SumCard.passed(number, random);
      writer.append(record);
      writer.commit();
      committed.add(record);
    }
  }

  private static List<VectorRecord> read(BenchLog log, long run) {
    List<VectorRecord> all = new ArrayList<>();
    log.forEachVector(run, all::add);
    return all;
  }
}
