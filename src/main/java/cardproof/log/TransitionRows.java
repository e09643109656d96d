package cardproof.log;

import java.util.Arrays;
import java.util.OptionalLong;

/** Reads the transitions of a run, and works them out for runs logged before they were kept. */
final class TransitionRows {
  /** In one text: a row each would take several times as long. */
  private static final String KEPT =
      "SELECT group_concat(number), group_concat(ifnull(transition, 0)) FROM"
          + " (SELECT number, transition FROM vector WHERE run = ? AND number BETWEEN ? AND ?"
          + " ORDER BY number)";

  private static final long LOT = 1 << 17;

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
      long last = db.number("SELECT ifnull(max(number), -1) FROM vector WHERE run = ?", run);
      for (long from = 0; from <= last; from += LOT) {
        db.scan(
            KEPT,
            row -> collected.put(row.getBytes(1), row.getBytes(2)),
            run,
            from,
            from + LOT - 1);
      }
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

    /** Nothing where a lot is empty. */
    void put(byte[] numbers, byte[] transitions) {
      if (numbers != null) {
        NumberText number = new NumberText(numbers);
        NumberText name = new NumberText(transitions);
        while (number.hasNext()) {
          put(number.next(), name.next());
        }
      }
    }

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
