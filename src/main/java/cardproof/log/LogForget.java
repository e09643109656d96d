package cardproof.log;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * Takes runs out of the log for good. A run that a later one continues stays as long as that one
 * does; so does a run that is being written.
 */
final class LogForget {
  private static final String FORGETTABLE =
      "WITH RECURSIVE kept(run) AS ("
          + " SELECT run FROM run WHERE started_us >= ?1"
          + " UNION SELECT r.continues FROM run AS r JOIN kept ON r.run = kept.run"
          + " WHERE r.continues IS NOT NULL)"
          + " SELECT run FROM run WHERE run NOT IN (SELECT run FROM kept) ORDER BY run";

  private final Db db;

  LogForget(Db db) {
    this.db = db;
  }

  /**
   * The runs that would go.
   *
   * @param unfinished runs that are being written
   */
  List<Long> before(Instant moment, Set<Long> unfinished) {
    List<Long> runs = new ArrayList<>(db.list(FORGETTABLE, r -> r.getLong(1), Micros.of(moment)));
    runs.removeAll(unfinished);
    return runs;
  }

  /** Takes them out; rework notes stay. */
  void forget(List<Long> runs) {
    db.write(
        () -> {
          for (String table : RunTables.names(db)) {
            for (long run : runs) {
              db.update("DELETE FROM " + table + " WHERE run = ?", run);
            }
          }
        });
    db.script("VACUUM");
    db.list("PRAGMA wal_checkpoint(TRUNCATE)", row -> row.getInt(1));
  }
}
