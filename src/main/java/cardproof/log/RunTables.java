package cardproof.log;

import java.util.List;

/** The tables whose rows belong to a run, found in the log itself so that none is forgotten. */
final class RunTables {
  private RunTables() {}

  /** Their names, {@code run} first. */
  static List<String> names(Db db) {
    return db.list(
        "SELECT t.name FROM sqlite_schema AS t JOIN pragma_table_info(t.name) AS c"
            + " WHERE t.type = 'table' AND c.name = 'run' ORDER BY t.name <> 'run', t.name",
        row -> row.getString(1));
  }

  /** The columns of one of them. */
  static List<String> columns(Db db, String table) {
    return db.list(
        "SELECT name FROM pragma_table_info(?) ORDER BY cid", row -> row.getString(1), table);
  }
}
