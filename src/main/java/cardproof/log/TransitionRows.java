package cardproof.log;

import java.util.Arrays;
import java.util.OptionalLong;

/** Reads the transitions of a run, and works them out for runs logged before they were kept. */
final class TransitionRows {
  private final Db db;

  TransitionRows(Db db) {
    this.db = db;
  }

  /** That of one vector. */
  OptionalLong one(long run, long number) {
    return db
        .list(
            "SELECT transition FROM vector WHERE run = ? AND number = ? AND transition IS NOT NULL",
            row -> row.getLong(1),
            run,
            number)
        .stream()
        .mapToLong(Long::longValue)
        .findFirst();
  }

  RunTransitions of(long run) {
    Collected collected = new Collected();
    if (areKept(run)) {
      db.scan(
          "SELECT number, ifnull(transition, 0) FROM vector WHERE run = ? ORDER BY number",
          row -> collected.put(row.getLong(1), row.getLong(2)),
          run);
    } else {
      Transitions transitions = new Transitions();
      new VectorReader(db)
          .eachBare(
              run,
              vector ->
                  collected.put(
                      vector.number(),
                      transitions
                          .next(vector.driven(), vector.level(), vector.before(), vector.verdict())
                          .orElse(RunTransitions.UNKNOWN)));
    }
    return collected.done();
  }

  /** The first vector of a run has one unless it was never driven. */
  private boolean areKept(long run) {
    return db.number(
            "SELECT EXISTS (SELECT 1 FROM vector WHERE run = ? AND transition IS NOT NULL)", run)
        != 0;
  }

  /** Names by number while they are read. */
  private static final class Collected {
    private long first = -1;
    private long[] names = new long[256];
    private int used;

    void put(long number, long name) {
      if (first < 0) {
        first = number;
      }
      int at = Math.toIntExact(number - first);
      if (at >= names.length) {
        names = Arrays.copyOf(names, Math.max(at + 1, names.length + names.length / 2));
      }
      names[at] = name;
      used = at + 1;
    }

    RunTransitions done() {
      return new RunTransitions(Math.max(0, first), Arrays.copyOf(names, used));
    }
  }
}
