package cardproof.log;

import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Writes the moved lines of a run. They lie in the order in which statistics read them, where a
 * vector touches as many pages as lines moved; so they are sorted in many vectors at a time, and a
 * commit before that puts them down as one row a vector, for the case that this process dies.
 */
final class MovedWriter implements AutoCloseable {
  /** Vectors between two sortings-in, each of some milliseconds. */
  static final int SORT_AFTER = 128;

  /** From so many at once on, putting them down first is not worth it. */
  private static final int SORT_AT_ONCE = 32;

  /** Rows that one statement inserts; the work of a statement is shared by so many. */
  private static final int ROWS = 64;

  private static final Comparator<LineMovement> AS_READ =
      Comparator.<LineMovement>comparingInt(each -> each.moved().line())
          .thenComparing(each -> each.moved().endsHigh())
          .thenComparingLong(LineMovement::vector);

  private final Db db;
  private final long run;
  private final PreparedStatement insertRecent;
  private final PreparedStatement insertOne;
  private final PreparedStatement insertMany;
  private final List<VectorRecord> notPutDown = new ArrayList<>();
  private final List<LineMovement> unsorted = new ArrayList<>();
  private int vectors;
  private boolean putDown;

  MovedWriter(Db db, long run) {
    this.db = db;
    this.run = run;
    this.insertRecent = db.prepare(MovedRows.INSERT_RECENT);
    this.insertOne = db.prepare(MovedRows.insert(run, 1));
    this.insertMany = db.prepare(MovedRows.insert(run, ROWS));
  }

  /** Takes the moved lines of a vector; not in the database before {@link #beforeCommit}. */
  void add(VectorRecord record) {
    vectors++;
    if (!record.moved().isEmpty()) {
      notPutDown.add(record);
      for (MovedLine moved : record.moved()) {
        unsorted.add(new LineMovement(record.number(), moved));
      }
    }
  }

  /** Forgets those of a vector that are not sorted in so far. */
  void remove(long vector) {
    notPutDown.removeIf(record -> record.number() == vector);
    unsorted.removeIf(each -> each.vector() == vector);
  }

  /** Everything taken is in the database after this. */
  void beforeCommit() {
    if (vectors >= SORT_AFTER || notPutDown.size() >= SORT_AT_ONCE) {
      sortIn();
    } else {
      putDown();
    }
  }

  private void putDown() {
    db.run(
        () -> {
          for (VectorRecord record : notPutDown) {
            insertRecent.setLong(1, run);
            insertRecent.setLong(2, record.number());
            insertRecent.setString(3, MovedRows.json(record.moved()));
            insertRecent.executeUpdate();
          }
        });
    putDown |= !notPutDown.isEmpty();
    notPutDown.clear();
  }

  /** Everything taken is in the database after this, in the order in which it is read. */
  void sortIn() {
    unsorted.sort(AS_READ);
    db.run(
        () -> {
          int many = unsorted.size() / ROWS * ROWS;
          for (int i = 0; i < many; i += ROWS) {
            insert(insertMany, unsorted.subList(i, i + ROWS));
          }
          for (int i = many; i < unsorted.size(); i++) {
            insert(insertOne, unsorted.subList(i, i + 1));
          }
        });
    if (putDown) {
      db.update("DELETE FROM moved_recent WHERE run = ?", run);
    }
    putDown = false;
    unsorted.clear();
    notPutDown.clear();
    vectors = 0;
  }

  private static void insert(PreparedStatement statement, List<LineMovement> rows)
      throws SQLException {
    int column = 1;
    for (LineMovement row : rows) {
      column = MovedRows.bind(statement, column, row.vector(), row.moved());
    }
    statement.executeUpdate();
  }

  @Override
  public void close() {
    db.run(insertRecent::close);
    db.run(insertOne::close);
    db.run(insertMany::close);
  }
}
