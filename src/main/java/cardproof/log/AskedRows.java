package cardproof.log;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/** Writes and reads what was asked for of a plan, and which run continues which. */
final class AskedRows {
  private final Db db;

  AskedRows(Db db) {
    this.db = db;
  }

  void insert(long run, RunAsked asked) {
    insert(run, 0, asked.only());
    insert(run, 1, asked.skip());
    asked
        .continues()
        .ifPresent(
            before ->
                db.update(
                    "UPDATE run SET continues = ?, continues_at = ? WHERE run = ?",
                    before.run(),
                    before.at(),
                    run));
  }

  private void insert(long run, int skip, List<String> words) {
    for (int i = 0; i < words.size(); i++) {
      db.update("INSERT INTO run_choice VALUES (?,?,?,?)", run, skip, i, words.get(i));
    }
  }

  RunAsked read(long run) {
    return new RunAsked(words(run, 0), words(run, 1), continues(run));
  }

  private List<String> words(long run, int skip) {
    return db.list(
        "SELECT word FROM run_choice WHERE run = ? AND skip = ? ORDER BY position",
        row -> row.getString(1),
        run,
        skip);
  }

  private Optional<Continues> continues(long run) {
    return db
        .list(
            "SELECT continues, continues_at FROM run WHERE run = ? AND continues IS NOT NULL",
            row -> new Continues(row.getLong(1), row.getLong(2)),
            run)
        .stream()
        .findFirst();
  }

  /** The run that continues this one; the latest, should two have been begun at once. */
  OptionalLong continuedBy(long run) {
    return db.list("SELECT run FROM run WHERE continues = ?", row -> row.getLong(1), run).stream()
        .mapToLong(Long::longValue)
        .max();
  }

  /** A run and those that it continues, the first of them first. */
  List<RunPart> parts(long run) {
    Deque<RunPart> parts = new ArrayDeque<>();
    long below = Long.MAX_VALUE;
    Optional<Continues> before = continues(run);
    long at = run;
    while (before.isPresent()) {
      parts.addFirst(new RunPart(at, Math.min(before.get().at(), below), below));
      below = Math.min(below, before.get().at());
      at = before.get().run();
      before = continues(at);
    }
    parts.addFirst(new RunPart(at, 0, below));
    return List.copyOf(parts);
  }
}
