package cardproof.log;

import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.util.BitSet;
import java.util.List;
import java.util.OptionalInt;
import java.util.OptionalLong;

/** How a vector lies in its row; its moved lines lie elsewhere. */
final class VectorRows {
  static final String COLUMNS =
      "number, step, index_in_step, verdict, why, start_us, duration_us, gap_us, quiet_us,"
          + " driven, level, wanted, cared, seen, seen_before,"
          + " rail_mv, rail_low_mv, current_ma, current_high_ma, current_expected_ma";

  static final String INSERT =
      "INSERT INTO vector (run, "
          + COLUMNS
          + ", transition) VALUES (?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?)";

  static final String SUPERSEDE =
      "INSERT INTO vector_superseded (run, revision, superseded_why, "
          + COLUMNS
          + ") SELECT run, ?, ?, "
          + COLUMNS
          + " FROM vector WHERE run = ? AND number = ?";

  private VectorRows() {}

  static void bind(
      PreparedStatement statement, long run, VectorRecord record, OptionalLong transition)
      throws SQLException {
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
    SupplyRecord supply = record.supply();
    set(statement, 17, supply.railMv());
    set(statement, 18, supply.lowestRailMv());
    set(statement, 19, supply.currentMa());
    set(statement, 20, supply.highestCurrentMa());
    set(statement, 21, supply.expectedMa());
    if (transition.isPresent()) {
      statement.setLong(22, transition.getAsLong());
    } else {
      statement.setNull(22, Types.INTEGER);
    }
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
        moved,
        new SupplyRecord(
            number(row, 16), number(row, 17), number(row, 18), number(row, 19), number(row, 20)));
  }

  private static void set(PreparedStatement statement, int column, OptionalInt value)
      throws SQLException {
    if (value.isPresent()) {
      statement.setInt(column, value.getAsInt());
    } else {
      statement.setNull(column, Types.INTEGER);
    }
  }

  private static OptionalInt number(ResultSet row, int column) throws SQLException {
    int value = row.getInt(column);
    return row.wasNull() ? OptionalInt.empty() : OptionalInt.of(value);
  }

  private static BitSet set(ResultSet row, int column) throws SQLException {
    byte[] bytes = row.getBytes(column);
    // The driver gives a blob of no bytes as null.
    return bytes == null ? new BitSet() : BitSet.valueOf(bytes);
  }
}
