package cardproof.log;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.TreeMap;

/** Writes and reads what a run is, apart from its vectors. */
final class RunRows {
  private static final String INSERT =
      "INSERT INTO run (card, unit, simulated, card_title, plan, plan_title, planned, partial, seed, board, firmware,"
          + " board_id, sampling_ns, port, note, limits_json, hookup_json, started_us, host, pid,"
          + " process_started_us) VALUES (?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?)";

  private static final String SUMMARY =
      "SELECT run, card, unit, simulated, card_title, plan, plan_title, started_us, ended_us,"
          + " ending, why, host, pid, process_started_us, partial, planned, continues, continues_at FROM run";

  private final Db db;
  private final ProcessStamp here;

  RunRows(Db db, ProcessStamp here) {
    this.db = db;
    this.here = here;
  }

  /** The new run's id. */
  long insert(RunStart start) {
    UnitId unit = start.unit();
    FixtureUsed fixture = start.fixture();
    db.update(
        INSERT,
        unit.card(),
        unit.unit(),
        unit.simulated() ? 1 : 0,
        start.cardTitle(),
        start.plan(),
        start.planTitle(),
        start.plannedVectors(),
        start.partial() ? 1 : 0,
        start.seed().isPresent() ? start.seed().getAsLong() : null,
        fixture.board(),
        fixture.firmware(),
        fixture.boardId(),
        fixture.samplingNs(),
        fixture.port(),
        start.note(),
        start.limitsJson(),
        start.hookupJson(),
        Micros.of(start.started()),
        here.host(),
        here.pid(),
        here.startedUs().isPresent() ? here.startedUs().getAsLong() : null);
    long run = db.number("SELECT last_insert_rowid()");
    for (int i = 0; i < start.faults().size(); i++) {
      db.update("INSERT INTO run_fault VALUES (?,?,?)", run, i, start.faults().get(i));
    }
    start
        .fileHashes()
        .forEach((name, hash) -> db.update("INSERT INTO run_file VALUES (?,?,?)", run, name, hash));
    for (LineName line : start.lines()) {
      insertLine(run, line);
    }
    return run;
  }

  private void insertLine(long run, LineName line) {
    db.update(
        "INSERT INTO run_line VALUES (?,?,?,?,?,?,?,?)",
        run,
        line.line(),
        line.bus(),
        line.bit(),
        line.label(),
        line.pin(),
        line.driven() ? 1 : 0,
        line.watched() ? 1 : 0);
  }

  List<RunSummary> list(RunFilter filter) {
    String sql =
        SUMMARY
            + " WHERE (?1 IS NULL OR card = ?1) AND (?2 IS NULL OR unit = ?2)"
            + " AND (?3 IS NULL OR simulated = ?3) AND (?4 IS NULL OR started_us >= ?4)"
            + " ORDER BY started_us DESC, run DESC LIMIT ?5";
    Integer simulated =
        switch (filter.bench()) {
          case REAL -> 0;
          case SIMULATED -> 1;
          case BOTH -> null;
        };
    return db.list(
        sql,
        this::summary,
        filter.card().orElse(null),
        filter.unit().orElse(null),
        simulated,
        filter.since().map(Micros::of).orElse(null),
        filter.limit());
  }

  Optional<RunDetail> detail(long run) {
    return db.list(SUMMARY + " WHERE run = ?", this::summary, run).stream()
        .findFirst()
        .map(summary -> new RunDetail(summary, start(summary), steps(run)));
  }

  List<LineName> lines(long run) {
    return db.list(
        "SELECT line, bus, bit, label, pin, driven, watched FROM run_line WHERE run = ?"
            + " ORDER BY line",
        row ->
            new LineName(
                row.getInt(1),
                row.getString(2),
                row.getInt(3),
                row.getString(4),
                row.getString(5),
                row.getInt(6) != 0,
                row.getInt(7) != 0),
        run);
  }

  private List<StepTitle> steps(long run) {
    return db.list(
        "SELECT step, file, line, title, called_at FROM run_step WHERE run = ? ORDER BY step",
        row ->
            new StepTitle(
                row.getInt(1), row.getString(2), row.getInt(3), row.getString(4), row.getString(5)),
        run);
  }

  private RunSummary summary(ResultSet row) throws SQLException {
    long run = row.getLong(1);
    Optional<Long> endedUs = optional(row, 9);
    RunEnd end = RunEnd.ofCode(row.getInt(10));
    ProcessStamp writer =
        new ProcessStamp(row.getString(12), row.getLong(13), optionalLong(row, 14));
    if (end == RunEnd.RUNNING && writer.isGone(here)) {
      end = RunEnd.INTERRUPTED;
    }
    return new RunSummary(
        run,
        new UnitId(row.getString(2), row.getString(3), row.getInt(4) != 0),
        row.getString(5),
        row.getString(6),
        row.getString(7),
        Micros.instant(row.getLong(8)),
        endedUs.map(Micros::instant),
        end,
        row.getString(11),
        row.getString(12),
        row.getLong(16),
        row.getInt(15) != 0,
        continues(row),
        counts(run, end.isFinal()));
  }

  private static Optional<Continues> continues(ResultSet row) throws SQLException {
    long before = row.getLong(17);
    return row.wasNull() ? Optional.empty() : Optional.of(new Continues(before, row.getLong(18)));
  }

  private Map<Verdict, Long> counts(long run, boolean tallied) {
    Map<Verdict, Long> counts = new EnumMap<>(Verdict.class);
    for (Verdict verdict : Verdict.values()) {
      counts.put(verdict, 0L);
    }
    String sql =
        tallied
            ? "SELECT verdict, vectors FROM run_tally WHERE run = ?"
            : "SELECT verdict, count(*) FROM vector WHERE run = ? GROUP BY verdict";
    db.list(sql, row -> counts.put(Verdict.ofCode(row.getInt(1)), row.getLong(2)), run);
    return Collections.unmodifiableMap(counts);
  }

  private RunStart start(RunSummary summary) {
    long run = summary.id();
    Map<String, String> hashes = new TreeMap<>();
    db.list(
        "SELECT name, sha256 FROM run_file WHERE run = ?",
        row -> hashes.put(row.getString(1), row.getString(2)),
        run);
    List<String> faults =
        db.list(
            "SELECT fault FROM run_fault WHERE run = ? ORDER BY position",
            row -> row.getString(1),
            run);
    return db.list(
            "SELECT seed, board, firmware, board_id, sampling_ns, port, note, limits_json,"
                + " hookup_json, planned FROM run WHERE run = ?",
            row ->
                new RunStart(
                    summary.unit(),
                    summary.cardTitle(),
                    summary.plan(),
                    summary.planTitle(),
                    row.getLong(10),
                    summary.partial(),
                    optionalLong(row, 1),
                    new FixtureUsed(
                        row.getString(2),
                        row.getString(3),
                        row.getLong(4),
                        row.getLong(5),
                        row.getString(6)),
                    row.getString(7),
                    faults,
                    hashes,
                    row.getString(8),
                    row.getString(9),
                    lines(run),
                    summary.started()),
            run)
        .get(0);
  }

  private static Optional<Long> optional(ResultSet row, int column) throws SQLException {
    long value = row.getLong(column);
    return row.wasNull() ? Optional.empty() : Optional.of(value);
  }

  private static OptionalLong optionalLong(ResultSet row, int column) throws SQLException {
    return optional(row, column).map(OptionalLong::of).orElse(OptionalLong.empty());
  }
}
