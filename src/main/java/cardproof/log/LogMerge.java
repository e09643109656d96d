package cardproof.log;

import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * Takes the runs and rework notes of another log. A run is the same in both where the unit, the
 * computer, the program and the moment it started are; it gets a new number here.
 */
final class LogMerge {
  /** What tells a run from every other one. */
  private static final String SAME_RUN =
      "h.card = o.card AND h.unit = o.unit AND h.simulated = o.simulated"
          + " AND h.started_us = o.started_us AND h.host = o.host AND h.pid = o.pid";

  private static final String SAME_REWORK =
      "h.card = o.card AND h.unit = o.unit AND h.simulated = o.simulated"
          + " AND h.at_us = o.at_us AND h.note = o.note";

  private final Db db;

  LogMerge(Db db) {
    this.db = db;
  }

  /**
   * Takes all that is not here.
   *
   * @param other a log of the current version
   * @param unfinished its runs that are being written
   */
  Merged take(Path other, Set<Long> unfinished) {
    db.update("ATTACH DATABASE ? AS other", other.toString());
    try {
      Merged[] merged = new Merged[1];
      db.write(() -> merged[0] = takeAttached(unfinished));
      return merged[0];
    } finally {
      db.script("DETACH DATABASE other");
    }
  }

  private Merged takeAttached(Set<Long> unfinished) {
    db.script("CREATE TEMP TABLE same_run (old INTEGER PRIMARY KEY, new INTEGER NOT NULL)");
    db.script("CREATE TEMP TABLE same_rework (old INTEGER PRIMARY KEY, new INTEGER NOT NULL)");
    try {
      db.script(
          "INSERT INTO same_run SELECT o.run, min(h.run) FROM other.run AS o JOIN main.run AS h ON "
              + SAME_RUN
              + " GROUP BY o.run");
      int known = (int) db.number("SELECT count(*) FROM same_run");
      int runs = runs(unfinished);
      db.script(
          "INSERT INTO same_rework SELECT o.rework, min(h.rework) FROM other.rework AS o"
              + " JOIN main.rework AS h ON "
              + SAME_REWORK
              + " GROUP BY o.rework");
      int knownReworks = (int) db.number("SELECT count(*) FROM same_rework");
      return new Merged(runs, known, unfinished.size(), reworks(), knownReworks);
    } finally {
      db.script("DROP TABLE temp.same_run");
      db.script("DROP TABLE temp.same_rework");
    }
  }

  private int runs(Set<Long> unfinished) {
    long highest = db.number("SELECT ifnull(max(run), 0) FROM main.run");
    db.script("CREATE TEMP TABLE new_run (old INTEGER PRIMARY KEY, new INTEGER NOT NULL)");
    try {
      db.update(
          "INSERT INTO new_run SELECT run, ? + row_number() OVER (ORDER BY started_us, run)"
              + " FROM other.run WHERE run NOT IN (SELECT old FROM same_run)",
          highest);
      unfinished.forEach(run -> db.update("DELETE FROM new_run WHERE old = ?", run));
      for (String table : RunTables.names(db)) {
        copy(table);
      }
      db.script("INSERT INTO same_run SELECT old, new FROM new_run");
      db.script(
          "UPDATE main.run SET continues = (SELECT new FROM same_run WHERE old = continues)"
              + " WHERE run IN (SELECT new FROM new_run) AND continues IS NOT NULL");
      return (int) db.number("SELECT count(*) FROM new_run");
    } finally {
      db.script("DROP TABLE temp.new_run");
    }
  }

  private void copy(String table) {
    List<String> others =
        RunTables.columns(db, table).stream().filter(name -> !name.equals("run")).toList();
    String into = others.stream().map(name -> ", " + name).collect(Collectors.joining());
    String from = others.stream().map(name -> ", t." + name).collect(Collectors.joining());
    db.script(
        String.format(
            "INSERT INTO main.%1$s (run%2$s) SELECT n.new%3$s FROM temp.new_run AS n"
                + " CROSS JOIN other.%1$s AS t ON t.run = n.old",
            table, into, from));
  }

  private int reworks() {
    List<Long> missing =
        db.list(
            "SELECT rework FROM other.rework WHERE rework NOT IN (SELECT old FROM same_rework)"
                + " ORDER BY at_us, rework",
            row -> row.getLong(1));
    for (long rework : missing) {
      db.update(
          "INSERT INTO main.rework (card, unit, simulated, note, at_us)"
              + " SELECT card, unit, simulated, note, at_us FROM other.rework WHERE rework = ?",
          rework);
      db.update(
          "INSERT INTO main.rework_picture SELECT last_insert_rowid(), position, file"
              + " FROM other.rework_picture WHERE rework = ?",
          rework);
    }
    return missing.size();
  }
}
