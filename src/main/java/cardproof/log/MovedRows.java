package cardproof.log;

import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.Collections;
import java.util.List;

/** How a moved line lies in its row, and the queries that read those rows in either order. */
final class MovedRows {
  private static final String COLUMNS =
      "number, line, ends_high, first_us, last_us, changes, moves, censored, by_fixture";

  static final String INSERT_RECENT =
      "INSERT INTO moved_recent (run, number, moved) VALUES (?,?,?)";

  static final String INSERT_SUPERSEDED =
      "INSERT INTO moved_superseded (run, revision, "
          + COLUMNS
          + ") VALUES (?,?,?,?,?,?,?,?,?,?,?)";

  /** Of every run. A process that is writing one of them has its rows in memory as well. */
  static final String SORT_IN_RECENT =
      "INSERT OR IGNORE INTO moved (run, "
          + COLUMNS
          + ") SELECT run, "
          + COLUMNS
          + " FROM moved_recent_line ORDER BY run, line, ends_high, number";

  static final String EMPTY_RECENT = "DELETE FROM moved_recent";

  /** All lines of the vectors from ?2 to ?3 of run ?1, by vector and line. */
  static final String OF_VECTORS =
      "SELECT m.number, m.line, m.ends_high, m.first_us, m.last_us, m.changes, m.moves, m.censored, m.by_fixture"
          + " FROM run_line AS l CROSS JOIN moved AS m"
          + " ON m.run = l.run AND m.line = l.line AND m.ends_high IN (0, 1)"
          + " AND m.number BETWEEN ?2 AND ?3 WHERE l.run = ?1"
          + " UNION ALL SELECT "
          + COLUMNS
          + " FROM moved_recent_line WHERE run = ?1 AND number BETWEEN ?2 AND ?3"
          + " ORDER BY 1, 2";

  /** All vectors of run ?1 in which line ?2 moved and ended as ?3 says, in order. */
  static final String OF_LINE =
      "SELECT "
          + COLUMNS
          + " FROM moved WHERE run = ?1 AND line = ?2 AND ends_high = ?3"
          + " UNION ALL SELECT "
          + COLUMNS
          + " FROM moved_recent_line WHERE run = ?1 AND line = ?2 AND ends_high = ?3"
          + " ORDER BY number";

  static final String OF_SUPERSEDED =
      "SELECT "
          + COLUMNS
          + " FROM moved_superseded WHERE run = ?1 AND number = ?2 AND revision = ?3 ORDER BY line";

  private MovedRows() {}

  /** Inserts so many rows of one run; what another process has sorted in already stays. */
  static String insert(long run, int rows) {
    String row = "(" + run + ",?,?,?,?,?,?,?,?,?)";
    return "INSERT OR IGNORE INTO moved (run, "
        + COLUMNS
        + ") VALUES "
        + String.join(",", Collections.nCopies(rows, row));
  }

  /** Binds a row from a column on, and gives the column after it. */
  static int bind(PreparedStatement statement, int column, long vector, MovedLine moved)
      throws SQLException {
    statement.setLong(column, vector);
    statement.setInt(column + 1, moved.line());
    statement.setInt(column + 2, moved.endsHigh() ? 1 : 0);
    statement.setLong(column + 3, moved.firstUs());
    statement.setLong(column + 4, moved.lastUs());
    statement.setInt(column + 5, moved.changes());
    statement.setInt(column + 6, moved.moves());
    statement.setInt(column + 7, moved.censored() ? 1 : 0);
    statement.setInt(column + 8, moved.byFixture() ? 1 : 0);
    return column + 9;
  }

  /** All moved lines of a vector as one text, which costs far less to hand over than their rows. */
  static String json(List<MovedLine> moved) {
    StringBuilder text = new StringBuilder(40 * moved.size()).append('[');
    for (MovedLine each : moved) {
      text.append(text.length() == 1 ? "[" : ",[").append(each.line());
      text.append(',').append(each.endsHigh() ? 1 : 0);
      text.append(',').append(each.firstUs()).append(',').append(each.lastUs());
      text.append(',').append(each.changes()).append(',').append(each.moves());
      text.append(',').append(each.censored() ? 1 : 0);
      text.append(',').append(each.byFixture() ? 1 : 0).append(']');
    }
    return text.append(']').toString();
  }

  static LineMovement read(ResultSet row) throws SQLException {
    return new LineMovement(
        row.getLong(1),
        new MovedLine(
            row.getInt(2),
            row.getInt(3) != 0,
            row.getLong(4),
            row.getLong(5),
            row.getInt(6),
            row.getInt(7),
            row.getInt(8) != 0,
            row.getInt(9) != 0));
  }
}
