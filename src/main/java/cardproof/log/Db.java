package cardproof.log;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.Supplier;

/**
 * One connection to a bench log, with every failure told as a {@link LogException}. Confined to one
 * thread at a time. Transactions are begun and ended here in SQL, so that a writing one takes its
 * lock at once: one that reads first and writes later can be refused without any wait.
 */
final class Db implements AutoCloseable {
  /** Reads the row a result set stands on. */
  interface RowReader<T> {
    T read(ResultSet row) throws SQLException;
  }

  /** Takes the row a result set stands on. */
  interface RowSink {
    void take(ResultSet row) throws SQLException;
  }

  /** Work that may fail in the database. */
  interface Work {
    void run() throws SQLException;
  }

  private final Path file;
  private final Connection connection;
  // Not prepared ones: the driver closes a prepared statement for good when the disk fails.
  private final Statement control;
  private boolean inTransaction;

  Db(Path file, Connection connection) throws SQLException {
    this.file = file;
    this.connection = connection;
    this.control = connection.createStatement();
  }

  Path file() {
    return file;
  }

  boolean inTransaction() {
    return inTransaction;
  }

  PreparedStatement prepare(String sql) {
    return supply(() -> connection.prepareStatement(sql));
  }

  /** Rows of a query; for queries that are seldom asked. */
  <T> List<T> list(String sql, RowReader<T> reader, Object... arguments) {
    List<T> rows = new ArrayList<>();
    each(sql, reader, rows::add, arguments);
    return rows;
  }

  /** Hands on each row as it is read, so that no more than one is held. */
  <T> void each(String sql, RowReader<T> reader, Consumer<T> consumer, Object... arguments) {
    scan(sql, row -> consumer.accept(reader.read(row)), arguments);
  }

  /** Goes over the rows without making anything of them. */
  void scan(String sql, RowSink sink, Object... arguments) {
    run(
        () -> {
          try (PreparedStatement statement = bound(sql, arguments);
              ResultSet rows = statement.executeQuery()) {
            while (rows.next()) {
              sink.take(rows);
            }
          }
        });
  }

  long number(String sql, Object... arguments) {
    return list(sql, row -> row.getLong(1), arguments).get(0);
  }

  void update(String sql, Object... arguments) {
    run(
        () -> {
          try (PreparedStatement statement = bound(sql, arguments)) {
            statement.executeUpdate();
          }
        });
  }

  /** Any number of statements that give no rows. */
  void script(String sql) {
    run(() -> control.executeUpdate(sql));
  }

  /** Waits for the other writer as long as the connection was opened to wait. */
  void begin() {
    script("BEGIN IMMEDIATE");
    inTransaction = true;
  }

  void commit() {
    script("COMMIT");
    inTransaction = false;
  }

  /**
   * Drops what was not committed. The database may have done so by itself, as it does when its disk
   * is full, and then has nothing left to drop.
   */
  void rollback() {
    if (inTransaction) {
      inTransaction = false;
      run(
          () -> {
            try {
              control.executeUpdate("ROLLBACK");
            } catch (SQLException e) {
              if (!String.valueOf(e.getMessage()).contains("no transaction is active")) {
                throw e;
              }
            }
          });
    }
  }

  /** Writes all of it or nothing; joins the transaction that is open, where one is. */
  void write(Runnable work) {
    if (inTransaction) {
      work.run();
      return;
    }
    begin();
    try {
      work.run();
      commit();
    } catch (RuntimeException | Error e) {
      abandon(e);
      throw e;
    }
  }

  /** Several queries that see the same state, whatever another process commits meanwhile. */
  <T> T snapshot(Supplier<T> queries) {
    if (inTransaction) {
      return queries.get();
    }
    script("BEGIN DEFERRED");
    inTransaction = true;
    try {
      T result = queries.get();
      commit();
      return result;
    } catch (RuntimeException | Error e) {
      abandon(e);
      throw e;
    }
  }

  /** Rolls back because of {@code cause}, which stays the failure that is told. */
  private void abandon(Throwable cause) {
    try {
      rollback();
    } catch (LogException e) {
      cause.addSuppressed(e);
    }
  }

  void run(Work work) {
    try {
      work.run();
    } catch (SQLException e) {
      throw LogProblems.of(file, e);
    }
  }

  @Override
  public void close() {
    run(connection::close);
  }

  private PreparedStatement bound(String sql, Object... arguments) throws SQLException {
    PreparedStatement statement = connection.prepareStatement(sql);
    for (int i = 0; i < arguments.length; i++) {
      statement.setObject(i + 1, arguments[i]);
    }
    return statement;
  }

  /** Work with a result that may fail in the database. */
  private interface Source<T> {
    T get() throws SQLException;
  }

  private <T> T supply(Source<T> source) {
    try {
      return source.get();
    } catch (SQLException e) {
      throw LogProblems.of(file, e);
    }
  }
}
