package cardproof.log;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.junit.jupiter.api.Assumptions.assumeFalse;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.Random;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a user is told about a file that cannot be used, word for word. */
final class OpeningTest {
  private static final UnitId UNIT = UnitId.real("sum", "03");

  private static final String[] READ_ONLY = {
    "DIR/sum.bench: this bench log is read-only; wanted one that this user may write to, in a",
    "directory that this user may write to. Change its permissions, or choose another bench log."
  };

  @TempDir Path directory;

  private Path file() {
    return directory.resolve("sum.bench");
  }

  private void createLog() {
    try (BenchLog log = BenchLog.open(file(), SumCard.CLOCK);
        RunWriter writer = log.begin(SumCard.start(UNIT))) {
      writer.step(SumCard.step(0));
      Random random = new Random(1);
      for (int i = 0; i < 300; i++) {
        writer.append(SumCard.passed(i, random));
      }
      writer.end(RunEnd.FINISHED, "", SumCard.NOON);
    }
  }

  private void sql(Path file, String... statements) throws SQLException {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement statement = connection.createStatement()) {
      for (String each : statements) {
        statement.executeUpdate(each);
      }
    }
  }

  private void openToWrite() {
    BenchLog.open(file(), SumCard.CLOCK).close();
  }

  private void openToRead() {
    BenchLog.openForReading(file()).close();
  }

  private void assertTold(ThrowingCallable action, String... paragraph) {
    LogException e = catchThrowableOfType(LogException.class, action);
    assertThat(e).isNotNull();
    assertThat(e.getMessage().replace(directory.toString(), "DIR"))
        .isEqualTo(String.join(" ", paragraph));
  }

  private void assertToldEitherWay(String... paragraph) {
    assertTold(this::openToWrite, paragraph);
    assertTold(this::openToRead, paragraph);
  }

  @Test
  void locked() {
    createLog();
    Db waitsBriefly = new LogFile(file(), 1, Schema.current()).openForWriting();
    try (BenchLog second = new BenchLog(waitsBriefly, SumCard.CLOCK, ProcessStamp.own());
        BenchLog first = BenchLog.open(file(), SumCard.CLOCK);
        RunWriter writer = first.begin(SumCard.start(UNIT))) {
      writer.step(SumCard.step(0));
      assertTold(
          () -> second.begin(SumCard.start(UNIT)),
          "DIR/sum.bench: locked: another process is writing to this bench log and did not finish",
          "in time. Wait for the other run to end, or give this one a bench log of its own.");
      assertThat(second.runs(RunFilter.real())).hasSize(2);
      writer.commit();
      assertThat(second.begin(SumCard.start(UNIT)).runId()).isEqualTo(3);
    }
  }

  @Test
  void foreign() throws Exception {
    sql(file(), "PRAGMA application_id = 0x47504B47", "CREATE TABLE tide (height INTEGER)");
    byte[] before = Files.readAllBytes(file());
    assertToldEitherWay(
        "DIR/sum.bench: this is a database of some other program (application id 0x47504B47);",
        "wanted a bench log (0x43505246). Give the name of a bench log, or a new one; this file was",
        "not changed.");
    assertThat(Files.readAllBytes(file())).isEqualTo(before);
    assertThat(directory).isDirectoryNotContaining("glob:**-wal");
  }

  @Test
  void foreignWithoutAnApplicationId() throws Exception {
    sql(file(), "CREATE TABLE tide (height INTEGER)");
    assertToldEitherWay(
        "DIR/sum.bench: this is a database of some other program (application id 0x00000000);",
        "wanted a bench log (0x43505246). Give the name of a bench log, or a new one; this file was",
        "not changed.");
  }

  @Test
  void newer() throws Exception {
    createLog();
    sql(file(), "PRAGMA user_version = 99");
    assertToldEitherWay(
        "DIR/sum.bench: this bench log has schema version 99; wanted at most 5. It was written by a",
        "later version of this program; use that one.");
  }

  @Test
  void notADatabase() throws Exception {
    Files.writeString(file(), "card: sum\ntitle: 12-bit sum card\n".repeat(100));
    assertToldEitherWay(
        "DIR/sum.bench: this is not a database; wanted a bench log. Give the name of a bench log,",
        "or a new one.");
  }

  @Test
  void truncatedAtAPage() throws Exception {
    createLog();
    long size = Files.size(file());
    cutTo(size / 4096 / 2 * 4096);
    assertToldEitherWay(
        "DIR/sum.bench: this bench log is truncated, " + size / 4096 / 2 * 4096 + " bytes long;",
        "wanted " + size + " bytes. Take a whole copy, or recover what is left with SQLite's own",
        "shell (.recover).");
  }

  @Test
  void truncatedByOneByte() throws Exception {
    createLog();
    long size = Files.size(file());
    cutTo(size - 1);
    assertToldEitherWay(
        "DIR/sum.bench: this bench log is truncated, " + (size - 1) + " bytes long; wanted " + size,
        "bytes. Take a whole copy, or recover what is left with SQLite's own shell (.recover).");
  }

  @Test
  void truncatedWithinItsHeader() throws Exception {
    createLog();
    for (int bytes : new int[] {99, 16, 1}) {
      cutTo(bytes);
      assertToldEitherWay(
          "DIR/sum.bench: this bench log is truncated, " + bytes + " bytes long; wanted 100 bytes.",
          "Take a whole copy, or recover what is left with SQLite's own shell (.recover).");
    }
  }

  private void cutTo(long bytes) throws IOException {
    try (RandomAccessFile raw = new RandomAccessFile(file().toFile(), "rw")) {
      raw.setLength(bytes);
    }
  }

  @Test
  void damagedBehindItsHeader() throws Exception {
    createLog();
    overwrite(100, 200);
    assertToldEitherWay(
        "DIR/sum.bench: this bench log is damaged. Copy it away, then recover what is left with",
        "SQLite's own shell (.recover).");
  }

  @Test
  void damagedAmongItsRecords() throws Exception {
    createLog();
    List<Long> pages;
    try (Db db = new LogFile(file(), 1, Schema.current()).openForReading()) {
      pages = db.list("SELECT pageno FROM dbstat WHERE name = 'vector'", row -> row.getLong(1));
    }
    for (long page : pages) {
      overwrite(4096 * (page - 1), 8);
    }
    try (BenchLog log = BenchLog.openForReading(file())) {
      assertTold(
          () -> log.forEachVector(1, vector -> {}),
          "DIR/sum.bench: this bench log is damaged. Copy it away, then recover what is left with",
          "SQLite's own shell (.recover).");
    }
  }

  private void overwrite(long from, int bytes) throws IOException {
    try (RandomAccessFile raw = new RandomAccessFile(file().toFile(), "rw")) {
      raw.seek(from);
      byte[] garbage = new byte[bytes];
      new Random(from).nextBytes(garbage);
      raw.write(garbage);
    }
  }

  @Test
  void readOnly() {
    createLog();
    try (BenchLog log = BenchLog.openForReading(file())) {
      assertTold(() -> log.addRework(UNIT, "K7 replaced", SumCard.NOON), READ_ONLY);
    }
  }

  @Test
  void readOnlyByItsPermissions() {
    createLog();
    assertThat(file().toFile().setReadOnly()).isTrue();
    assumeFalse(Files.isWritable(file()), "this user may write to everything");
    assertTold(this::openToWrite, READ_ONLY);
    try (BenchLog log = BenchLog.openForReading(file())) {
      assertThat(log.runs(RunFilter.real())).hasSize(1);
    }
  }

  @Test
  void inADirectoryThatCannotBeWrittenTo() {
    createLog();
    assertThat(directory.toFile().setWritable(false)).isTrue();
    try {
      assumeFalse(Files.isWritable(directory), "this user may write to everything");
      assertTold(this::openToWrite, READ_ONLY);
      try (BenchLog log = BenchLog.openForReading(file())) {
        assertThat(log.runs(RunFilter.real())).hasSize(1);
      }
    } finally {
      assertThat(directory.toFile().setWritable(true)).isTrue();
    }
  }

  @Test
  void directoryMissing() {
    Path deep = directory.resolve("june/sum.bench");
    assertTold(
        () -> BenchLog.open(deep, SumCard.CLOCK),
        "DIR/june/sum.bench: there is no directory DIR/june. Create it, or choose another place for",
        "the bench log.");
  }

  @Test
  void isADirectory() throws Exception {
    Files.createDirectory(file());
    assertToldEitherWay(
        "DIR/sum.bench: this is a directory; wanted a bench log. Name a file in it.");
  }

  @Test
  void missing() {
    assertTold(
        this::openToRead,
        "DIR/sum.bench: there is no such bench log. Run a plan first, or check the name.");
    assertThat(file()).doesNotExist();
  }

  @Test
  void emptyIsMadeALogByAWriterOnly() throws Exception {
    Files.createFile(file());
    assertTold(
        this::openToRead,
        "DIR/sum.bench: this file is empty; wanted a bench log. Run a plan first, or check the",
        "name.");
    openToWrite();
    openToRead();
  }

  @Test
  void anyNameOfAFileWillDo() throws Exception {
    Path odd = directory.resolve("sum?mode=memory&x=%41#1 tide \u00e4\u6f6e.bench");
    BenchLog.open(odd, SumCard.CLOCK).close();
    assertThat(Files.size(odd)).isPositive();
    BenchLog.openForReading(odd).close();
    try (var files = Files.list(directory)) {
      assertThat(files).containsExactly(odd);
    }
  }

  @Test
  void aNewLogIsMarkedAndWrittenAhead() throws Exception {
    openToWrite();
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file());
        Statement statement = connection.createStatement()) {
      assertThat(statement.executeQuery("PRAGMA application_id").getInt(1))
          .isEqualTo(Schema.APPLICATION_ID);
      assertThat(statement.executeQuery("PRAGMA user_version").getInt(1)).isEqualTo(5);
      assertThat(statement.executeQuery("PRAGMA journal_mode").getString(1)).isEqualTo("wal");
    }
    try (Db db = new LogFile(file(), 1, Schema.current()).openForWriting()) {
      // 1 is NORMAL, sqlite.org/pragma.html#pragma_synchronous
      assertThat(db.number("PRAGMA synchronous")).isEqualTo(1);
    }
  }
}
