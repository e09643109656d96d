package cardproof.log;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;

/**
 * Reads the vectors of a run together with their moved lines, a few hundred at a time: the moved
 * lines of many vectors come in one pass over each line, and no more than one lot is in memory.
 */
final class VectorReader {
  private static final int LOT = 512;

  private static final String FROM_NUMBER =
      "SELECT "
          + VectorRows.COLUMNS
          + " FROM vector WHERE run = ? AND number >= ? ORDER BY number LIMIT ?";
  private static final String NOT_PASSED =
      "SELECT "
          + VectorRows.COLUMNS
          + " FROM vector WHERE run = ? AND verdict <> 0 AND verdict <> 8 ORDER BY number LIMIT ?";
  private static final String ONE =
      "SELECT " + VectorRows.COLUMNS + " FROM vector WHERE run = ? AND number = ?";
  private static final String SUPERSEDED =
      "SELECT "
          + VectorRows.COLUMNS
          + ", revision, superseded_why FROM vector_superseded WHERE run = ?"
          + " ORDER BY number, revision";

  private static final String SILENCE =
      "SELECT sum(gap_us > ? * quiet_us), sum(gap_us >= quiet_us), number, gap_us, quiet_us,"
          + " max(CAST(gap_us AS REAL) / quiet_us) FROM vector"
          + " WHERE run = ? AND gap_us > 0 AND quiet_us > 0";

  private final Db db;

  VectorReader(Db db) {
    this.db = db;
  }

  void each(long run, long fromNumber, Consumer<VectorRecord> consumer) {
    long from = fromNumber;
    List<VectorRecord> lot;
    do {
      long next = from;
      lot = db.snapshot(() -> withMoved(run, bare(FROM_NUMBER, run, next, LOT)));
      lot.forEach(consumer);
      if (!lot.isEmpty()) {
        from = lot.get(lot.size() - 1).number() + 1;
      }
    } while (lot.size() == LOT);
  }

  /** Every vector of a run in order, without its moved lines. */
  void eachBare(long run, Consumer<VectorRecord> consumer) {
    db.each(FROM_NUMBER, row -> VectorRows.read(row, List.of()), consumer, run, 0, -1);
  }

  List<VectorRecord> notPassed(long run, int limit) {
    return db.snapshot(
        () ->
            bare(NOT_PASSED, run, limit).stream()
                .map(record -> withMoved(run, List.of(record)).get(0))
                .toList());
  }

  /** SQLite takes the plain columns of such a query from the row that has the maximum. */
  Optional<LongestSilence> longestSilence(long run, double share) {
    return db
        .list(
            SILENCE,
            row ->
                new LongestSilence(
                    row.getLong(1), row.getLong(2), row.getLong(3), row.getLong(4), row.getLong(5)),
            share,
            run)
        .stream()
        .filter(silence -> silence.gapUs() > 0)
        .findFirst();
  }

  Optional<VectorRecord> one(long run, long number) {
    return db.snapshot(() -> withMoved(run, bare(ONE, run, number)).stream().findFirst());
  }

  List<Superseded> superseded(long run) {
    return db.snapshot(
        () ->
            db
                .list(
                    SUPERSEDED,
                    row ->
                        new Superseded(
                            row.getInt(21), VectorRows.read(row, List.of()), row.getString(22)),
                    run)
                .stream()
                .map(
                    old ->
                        new Superseded(
                            old.revision(), old.record().withMoved(movedOf(run, old)), old.why()))
                .toList());
  }

  private List<MovedLine> movedOf(long run, Superseded old) {
    return db.list(
        MovedRows.OF_SUPERSEDED,
        row -> MovedRows.read(row).moved(),
        run,
        old.record().number(),
        old.revision());
  }

  private List<VectorRecord> bare(String sql, Object... arguments) {
    return db.list(sql, row -> VectorRows.read(row, List.of()), arguments);
  }

  private List<VectorRecord> withMoved(long run, List<VectorRecord> bare) {
    if (bare.isEmpty()) {
      return bare;
    }
    Map<Long, List<MovedLine>> moved = new HashMap<>();
    db.each(
        MovedRows.OF_VECTORS,
        MovedRows::read,
        each -> moved.computeIfAbsent(each.vector(), v -> new ArrayList<>()).add(each.moved()),
        run,
        bare.get(0).number(),
        bare.get(bare.size() - 1).number());
    return bare.stream()
        .map(record -> record.withMoved(moved.getOrDefault(record.number(), List.of())))
        .toList();
  }
}
