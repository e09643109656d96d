package cardproof.log;

import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;

/**
 * Reads the settle times of runs that are the card's own. The database joins the numbers of many
 * rows into one text: handing over a row each would take three times as long as reading it.
 */
final class SettleRows implements AutoCloseable {
  /** Vectors at a time of a line, where a run has more: some megabytes of text. */
  private static final long LOT = 1 << 17;

  private static final String TEXTS =
      "SELECT line, ends_high,"
          + " group_concat(number), group_concat(iif(censored, -1 - last_us, last_us)) FROM moved";

  private static final String WHOLE_RUN =
      TEXTS + " WHERE run = ?1 AND by_fixture = 0 GROUP BY line, ends_high";

  private static final String LOT_OF_LINE =
      TEXTS
          + " WHERE run = ?1 AND line = ?2 AND ends_high = ?3 AND number BETWEEN ?4 AND ?5"
          + " AND by_fixture = 0 GROUP BY line, ends_high";

  /** For a run that is being written, or was when its process died. */
  private static final String ROW_BY_ROW =
      "SELECT line, ends_high, number, last_us, censored FROM moved"
          + " WHERE run = ?1 AND by_fixture = 0"
          + " UNION ALL SELECT line, ends_high, number, last_us, censored FROM moved_recent_line"
          + " WHERE run = ?1 AND by_fixture = 0 ORDER BY line, ends_high, number";

  private final Db db;
  private final PreparedStatement wholeRun;
  private final PreparedStatement anyRecent;
  private final PreparedStatement lastNumber;

  SettleRows(Db db) {
    this.db = db;
    this.wholeRun = db.prepare(WHOLE_RUN);
    this.anyRecent = db.prepare("SELECT EXISTS (SELECT 1 FROM moved_recent WHERE run = ?)");
    this.lastNumber = db.prepare("SELECT ifnull(max(number), -1) FROM vector WHERE run = ?");
  }

  /** All of a run, by line, falling before rising, in the order of the vectors. */
  void read(long run, SettleSink sink) {
    db.run(
        () -> {
          long last = number(lastNumber, run);
          if (number(anyRecent, run) != 0) {
            db.scan(ROW_BY_ROW, row -> one(row, sink), run);
          } else if (last < LOT) {
            wholeRun.setLong(1, run);
            texts(wholeRun, sink);
          } else {
            inLots(run, last, sink);
          }
        });
  }

  private void inLots(long run, long last, SettleSink sink) throws SQLException {
    try (PreparedStatement lotOfLine = db.prepare(LOT_OF_LINE)) {
      lotOfLine.setLong(1, run);
      for (LineName line : new RunRows(db, ProcessStamp.own()).lines(run)) {
        for (int endsHigh = 0; endsHigh <= 1; endsHigh++) {
          for (long from = 0; from <= last; from += LOT) {
            lotOfLine.setInt(2, line.line());
            lotOfLine.setInt(3, endsHigh);
            lotOfLine.setLong(4, from);
            lotOfLine.setLong(5, from + LOT - 1);
            texts(lotOfLine, sink);
          }
        }
      }
    }
  }

  private static void texts(PreparedStatement statement, SettleSink sink) throws SQLException {
    try (ResultSet row = statement.executeQuery()) {
      while (row.next()) {
        int line = row.getInt(1);
        boolean endsHigh = row.getInt(2) != 0;
        NumberText vectors = new NumberText(row.getBytes(3));
        NumberText times = new NumberText(row.getBytes(4));
        while (vectors.hasNext()) {
          long time = times.next();
          boolean censored = time < 0;
          sink.accept(line, endsHigh, vectors.next(), censored ? -1 - time : time, censored);
        }
      }
    }
  }

  private static void one(ResultSet row, SettleSink sink) throws SQLException {
    sink.accept(
        row.getInt(1), row.getInt(2) != 0, row.getLong(3), row.getLong(4), row.getInt(5) != 0);
  }

  private static long number(PreparedStatement statement, long run) throws SQLException {
    statement.setLong(1, run);
    try (ResultSet row = statement.executeQuery()) {
      row.next();
      return row.getLong(1);
    }
  }

  @Override
  public void close() {
    db.run(wholeRun::close);
    db.run(anyRecent::close);
    db.run(lastNumber::close);
  }
}
