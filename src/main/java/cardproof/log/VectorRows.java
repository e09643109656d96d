package cardproof.log;

import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.BitSet;
import java.util.List;

/** How a vector lies in its row; its moved lines lie elsewhere. */
final class VectorRows {
  static final String COLUMNS =
      "number, step, index_in_step, verdict, why, start_us, duration_us, gap_us, quiet_us,"
          + " driven, level, wanted, cared, seen, seen_before";

  static final String INSERT =
      "INSERT INTO vector (run, " + COLUMNS + ") VALUES (?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?)";

  static final String SUPERSEDE =
      "INSERT INTO vector_superseded (run, revision, superseded_why, "
          + COLUMNS
          + ") SELECT run, ?, ?, "
          + COLUMNS
          + " FROM vector WHERE run = ? AND number = ?";

  private VectorRows() {}

  static void bind(PreparedStatement statement, long run, VectorRecord record) throws SQLException {
    statement.setLong(1, run);
    statement.setLong(2, record.number());
    statement.setInt(3, record.step());
    statement.setLong(4, record.indexInStep());
    statement.setInt(5, record.verdict().code());
    statement.setString(6, record.why());
    statement.setLong(7, record.startUs());
    statement.setLong(8, record.durationUs());
    statement.setLong(9, record.gapUs());
    statement.setLong(10, record.quietUs());
    statement.setBytes(11, record.driven().toByteArray());
    statement.setBytes(12, record.level().toByteArray());
    statement.setBytes(13, record.wanted().toByteArray());
    statement.setBytes(14, record.cared().toByteArray());
    statement.setBytes(15, record.seen().toByteArray());
    statement.setBytes(16, record.before().toByteArray());
  }

  /** Reads {@link #COLUMNS}, which come first in the row. */
  static VectorRecord read(ResultSet row, List<MovedLine> moved) throws SQLException {
    return new VectorRecord(
        row.getLong(1),
        row.getInt(2),
        row.getLong(3),
        Verdict.ofCode(row.getInt(4)),
        row.getString(5),
        row.getLong(6),
        row.getLong(7),
        row.getLong(8),
        row.getLong(9),
        set(row, 10),
        set(row, 11),
        set(row, 12),
        set(row, 13),
        set(row, 14),
        set(row, 15),
        moved);
  }

  /** The record with these moved lines in place of its own. */
  static VectorRecord with(VectorRecord bare, List<MovedLine> moved) {
    return new VectorRecord(
        bare.number(),
        bare.step(),
        bare.indexInStep(),
        bare.verdict(),
        bare.why(),
        bare.startUs(),
        bare.durationUs(),
        bare.gapUs(),
        bare.quietUs(),
        bare.driven(),
        bare.level(),
        bare.wanted(),
        bare.cared(),
        bare.seen(),
        bare.before(),
        moved);
  }

  private static BitSet set(ResultSet row, int column) throws SQLException {
    byte[] bytes = row.getBytes(column);
    // The driver gives a blob of no bytes as null.
    return bytes == null ? new BitSet() : BitSet.valueOf(bytes);
  }
}
