package cardproof.log;

import java.nio.file.Path;

/**
 * A log with 10,002,000 settle times for benchmarks: 3334 runs of the sum card of 300 vectors each,
 * in which ten lines moved.
 */
public final class TenMillionTimes {
  public static final int RUNS = 3334;
  public static final int VECTORS = 300;
  public static final int LINES = 10;
  public static final long TIMES = (long) RUNS * VECTORS * LINES;

  private static final String RUN_NUMBERS = numbers("r(run)", 2, RUNS + 1);
  private static final String VECTOR_NUMBERS = numbers("v(n)", 0, VECTORS - 1);
  private static final String LINE_NUMBERS =
      numbers("l(line)", SumCard.FIRST_OUTPUT, SumCard.FIRST_OUTPUT + LINES - 1);

  private TenMillionTimes() {}

  private static String numbers(String table, int from, int to) {
    String column = table.substring(table.indexOf('(') + 1, table.length() - 1);
    String name = table.substring(0, table.indexOf('('));
    return String.format(
        "%s AS (SELECT %d UNION ALL SELECT %s + 1 FROM %s WHERE %s < %d)",
        table, from, column, name, column, to);
  }

  /** Runs have the ids from 2 on; run 1 names the lines. */
  public static void write(Path file) {
    try (BenchLog log = BenchLog.open(file, SumCard.CLOCK);
        RunWriter writer = log.begin(SumCard.start(UnitId.real("sum", "03")))) {
      writer.end(RunEnd.FINISHED, "", SumCard.NOON);
    }
    try (Db db = new LogFile(file, 1000, Schema.current()).openForWriting()) {
      db.write(
          () -> {
            db.script(
                "WITH RECURSIVE "
                    + RUN_NUMBERS
                    + " INSERT INTO run_line SELECT r.run, line, bus, bit, label, pin, driven, watched"
                    + " FROM r CROSS JOIN run_line WHERE run_line.run = 1");
            db.script(
                "WITH RECURSIVE "
                    + String.join(", ", RUN_NUMBERS, VECTOR_NUMBERS, LINE_NUMBERS)
                    + ", e(high) AS (VALUES (0), (1)) INSERT INTO moved SELECT run, line, high, n,"
                    + " 15000 + n, 20000 + 8000 * line + (7919 * n + 104729 * run) % 4000, 3, 1, 0, 0"
                    + " FROM r CROSS JOIN l CROSS JOIN e CROSS JOIN v WHERE (n + line) % 2 = high");
            db.script(
                "WITH RECURSIVE "
                    + String.join(", ", RUN_NUMBERS, VECTOR_NUMBERS)
                    + " INSERT INTO vector (run, number, step, index_in_step, verdict, why, start_us,"
                    + " duration_us, gap_us, quiet_us, driven, level, wanted, cared, seen, seen_before,"
                    + " transition) SELECT run, n, 0, n, 0, '', 300000 * n, 200000, 20000, 65000,"
                    + " x'ffffff01', x'00', x'00', x'00', x'00', x'00', 92821312312345 * n + 77"
                    + " FROM r CROSS JOIN v");
          });
    }
  }

  /** What the database itself needs to read and sum every column that the statistics need. */
  public static long sum(Path file) {
    try (Db db = new LogFile(file, 1000, Schema.current()).openForReading()) {
      return db.number(
              "SELECT sum(number) + sum(last_us) + sum(censored) + sum(by_fixture) FROM moved")
          + db.number("SELECT sum(number) + sum(transition % 1000) FROM vector");
    }
  }
}
