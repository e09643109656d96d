package cardproof.log;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;
import java.util.OptionalLong;

/** Writes and reads what sweeps found. */
final class SweepRows {
  private static final String INSERT =
      "INSERT INTO sweep (run, first_trial, step, what, from_us, to_us, resolution_us, at_most_us,"
          + " trials, planned) VALUES (?,?,?,?,?,?,?,?,?,?)";
  private static final String INSERT_LINE =
      "INSERT INTO sweep_line (run, first_trial, line, rising, worked_us, failed_us, ever_worked_us,"
          + " trials, at_edge) VALUES (?,?,?,?,?,?,?,?,?)";

  private final Db db;

  SweepRows(Db db) {
    this.db = db;
  }

  void insert(long run, SweepRecord sweep) {
    db.update(
        INSERT,
        run,
        sweep.firstTrial(),
        sweep.step(),
        sweep.what(),
        sweep.fromUs(),
        sweep.toUs(),
        sweep.resolutionUs(),
        orNull(sweep.atMostUs()),
        sweep.trials(),
        sweep.planned());
    for (SweepLine line : sweep.lines()) {
      db.update(
          INSERT_LINE,
          run,
          sweep.firstTrial(),
          line.line(),
          line.rising() ? 1 : 0,
          orNull(line.workedUs()),
          orNull(line.failedUs()),
          orNull(line.everWorkedUs()),
          line.trials(),
          line.atEdge());
    }
  }

  List<SweepRecord> read(long run) {
    return db.list(
        "SELECT first_trial, step, what, from_us, to_us, resolution_us, at_most_us, trials, planned"
            + " FROM sweep WHERE run = ? ORDER BY first_trial",
        row ->
            new SweepRecord(
                row.getLong(1),
                row.getInt(2),
                row.getString(3),
                row.getLong(4),
                row.getLong(5),
                row.getLong(6),
                optional(row, 7),
                row.getInt(8),
                row.getLong(9),
                lines(run, row.getLong(1))),
        run);
  }

  private List<SweepLine> lines(long run, long firstTrial) {
    return db.list(
        "SELECT line, rising, worked_us, failed_us, ever_worked_us, trials, at_edge FROM sweep_line"
            + " WHERE run = ? AND first_trial = ? ORDER BY line, rising DESC",
        row ->
            new SweepLine(
                row.getInt(1),
                row.getInt(2) != 0,
                optional(row, 3),
                optional(row, 4),
                optional(row, 5),
                row.getInt(6),
                row.getInt(7)),
        run,
        firstTrial);
  }

  private static Object orNull(OptionalLong value) {
    return value.isPresent() ? value.getAsLong() : null;
  }

  private static OptionalLong optional(ResultSet row, int column) throws SQLException {
    long value = row.getLong(column);
    return row.wasNull() ? OptionalLong.empty() : OptionalLong.of(value);
  }
}
