package cardproof.log;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

final class SchemaTest {
  private static final int NOW = Schema.current().version();
  private static final UnitId UNIT = UnitId.real("sum", "03");
  private static final String ADD_PICTURE =
      "ALTER TABLE rework ADD COLUMN picture TEXT NOT NULL DEFAULT 'none';"
          + "CREATE TABLE probe (run INTEGER PRIMARY KEY) STRICT;";
  private static final String BREAKS_HALFWAY =
      "CREATE TABLE meter (run INTEGER PRIMARY KEY) STRICT; INSERT INTO nowhere VALUES (1);";

  @TempDir Path directory;
  private Path file;

  @BeforeEach
  void createLog() {
    file = directory.resolve("sum.bench");
    try (BenchLog log = BenchLog.open(file, SumCard.CLOCK)) {
      log.addRework(UNIT, "K7 replaced", SumCard.NOON);
    }
  }

  private LogFile with(String... later) {
    List<String> scripts = new ArrayList<>(Schema.current().scripts());
    scripts.addAll(List.of(later));
    return new LogFile(file, 1000, new Schema(scripts));
  }

  private static long version(Db db) {
    return db.number("PRAGMA user_version");
  }

  @Test
  void anEarlierLogIsBroughtUpToDateAndKeepsWhatItHolds() {
    try (Db db = with(ADD_PICTURE, "CREATE TABLE third (x INTEGER) STRICT").openForWriting()) {
      assertThat(version(db)).isEqualTo(NOW + 2);
      assertThat(db.list("SELECT note || ' ' || picture FROM rework", row -> row.getString(1)))
          .containsExactly("K7 replaced none");
      assertThat(db.number("SELECT count(*) FROM probe")).isZero();
    }
    try (Db again = with(ADD_PICTURE, "CREATE TABLE third (x INTEGER) STRICT").openForWriting()) {
      assertThat(version(again)).isEqualTo(NOW + 2);
    }
  }

  @Test
  void aReaderBringsItUpToDateToo() {
    try (Db db = with(ADD_PICTURE).openForReading()) {
      assertThat(version(db)).isEqualTo(NOW + 1);
      assertThatThrownBy(() -> db.update("DELETE FROM rework")).hasMessageContaining("read-only");
    }
  }

  /** A step that was logged before calls were kept comes from none as far as anybody can tell. */
  @Test
  void stepsOfTheFirstVersionAreRead() {
    Path old = directory.resolve("old.bench");
    Schema first = new Schema(Schema.current().scripts().subList(0, 1));
    try (Db db = new LogFile(old, 1000, first).openForWriting()) {
      db.script(
          "INSERT INTO run VALUES (1,'sum','03',0,'','plan.yaml','',1,0,NULL,'b','f',0,0,'','','{}',"
              + "'{}',0,0,1,'','h',1,NULL); INSERT INTO run_step VALUES (1,0,'plan.yaml',7,'carry')");
    }
    try (BenchLog log = BenchLog.open(old, SumCard.CLOCK)) {
      StepTitle step = log.run(1).orElseThrow().steps().get(0);
      assertThat(step).isEqualTo(new StepTitle(0, "plan.yaml", 7, "carry", ""));
      assertThat(step.origin(4)).isEqualTo("plan.yaml:7#5");
    }
  }

  /** Vectors of logs in which nobody measured the supply come without; new ones come with it. */
  @ParameterizedTest
  @ValueSource(ints = {1, 2})
  void vectorsOfEarlierVersionsHaveNoSupply(int version) {
    Path old = directory.resolve("old.bench");
    Schema earlier = new Schema(Schema.current().scripts().subList(0, version));
    try (Db db = new LogFile(old, 1000, earlier).openForWriting()) {
      String into =
          version == 1
              ? "run"
              : "run (run,card,unit,simulated,card_title,plan,plan_title,"
                  + "planned,partial,seed,board,firmware,board_id,sampling_ns,port,note,limits_json,"
                  + "hookup_json,started_us,ended_us,ending,why,host,pid,process_started_us)";
      db.script(
          "INSERT INTO "
              + into
              + " VALUES (1,'sum','03',0,'','plan.yaml','',1,0,NULL,'b','f',0,0,"
              + "'','','{}','{}',0,0,1,'','h',1,NULL);"
              + "INSERT INTO vector VALUES (1,0,0,0,3,'wrong',1,2,3,4,x'01',x'01',x'',x'',x'',x'');"
              + "INSERT INTO vector_superseded"
              + " VALUES (1,0,1,'moved',0,0,0,'',1,2,3,4,x'01',x'01',x'',x'',x'',x'')");
    }
    try (BenchLog log = BenchLog.open(old, SumCard.CLOCK)) {
      VectorRecord vector = log.vector(1, 0).orElseThrow();
      assertThat(vector.why()).isEqualTo("wrong");
      assertThat(vector.supply()).isEqualTo(SupplyRecord.NOTHING);
      assertThat(vector.supply().measured()).isFalse();
      assertThat(log.superseded(1).get(0).record().supply()).isEqualTo(SupplyRecord.NOTHING);
      assertThat(log.supplyFindings(1)).isEmpty();
    }
  }

  @Test
  void aScriptThatFailsLeavesTheVersionBefore() {
    assertThatThrownBy(() -> with(ADD_PICTURE, BREAKS_HALFWAY).openForWriting())
        .isInstanceOf(LogException.class)
        .hasMessageContaining("no such table: nowhere");
    try (Db db = with(ADD_PICTURE).openForWriting()) {
      assertThat(version(db)).isEqualTo(NOW + 1);
      assertThat(db.number("SELECT count(*) FROM sqlite_schema WHERE name = 'meter'")).isZero();
    }
  }

  @Test
  void aLaterLogIsRefused() {
    with(ADD_PICTURE).openForWriting().close();
    assertThatThrownBy(() -> BenchLog.open(file, SumCard.CLOCK))
        .hasMessageContaining("schema version " + (NOW + 1) + "; wanted at most " + NOW);
  }

  @Test
  void movedLinesAreFoundByTheirKeysInEitherOrder() {
    assertThat(plan(MovedRows.OF_LINE))
        .anyMatch(step -> step.contains("PRIMARY KEY (run=? AND line=? AND ends_high=?)"))
        .noneMatch(step -> step.contains("SCAN moved"));
    assertThat(plan(MovedRows.OF_VECTORS))
        .anyMatch(
            step ->
                step.contains(
                    "PRIMARY KEY (run=? AND line=? AND ends_high=? AND number>? AND number<?)"))
        .noneMatch(step -> step.contains("SCAN m"));
  }

  private List<String> plan(String sql) {
    try (Db db = with().openForReading()) {
      return db.list("EXPLAIN QUERY PLAN " + sql, row -> row.getString("detail"), 1, 2, 1);
    }
  }
}
