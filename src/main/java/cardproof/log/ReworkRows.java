package cardproof.log;

import java.util.List;

/** Writes and reads repairs. */
final class ReworkRows {
  private final Db db;

  ReworkRows(Db db) {
    this.db = db;
  }

  void insert(Rework rework) {
    db.update(
        "INSERT INTO rework (card, unit, simulated, note, at_us) VALUES (?,?,?,?,?)",
        rework.unit().card(),
        rework.unit().unit(),
        rework.unit().simulated() ? 1 : 0,
        rework.note(),
        Micros.of(rework.at()));
    long id = db.number("SELECT last_insert_rowid()");
    for (int i = 0; i < rework.pictures().size(); i++) {
      db.update("INSERT INTO rework_picture VALUES (?,?,?)", id, i, rework.pictures().get(i));
    }
  }

  List<Rework> of(UnitId unit) {
    return db.list(
        "SELECT rework, note, at_us FROM rework WHERE card = ? AND unit = ? AND simulated = ?"
            + " ORDER BY at_us, rework",
        row ->
            new Rework(
                unit, row.getString(2), Micros.instant(row.getLong(3)), pictures(row.getLong(1))),
        unit.card(),
        unit.unit(),
        unit.simulated() ? 1 : 0);
  }

  private List<String> pictures(long rework) {
    return db.list(
        "SELECT file FROM rework_picture WHERE rework = ? ORDER BY position",
        row -> row.getString(1),
        rework);
  }
}
