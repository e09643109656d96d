package cardproof.report.table;

import cardproof.log.BenchLog;
import cardproof.log.Rework;
import cardproof.log.RunDetail;
import cardproof.log.RunSummary;
import cardproof.log.UnitId;
import java.util.List;
import java.util.Locale;
import java.util.function.BiConsumer;
import java.util.function.Consumer;

/** The tables that records of runs make, row by row; one row at a time is in memory. */
enum Table {
  RUNS {
    @Override
    void write(BenchLog log, List<RunSummary> runs, Consumer<Row> rows) {
      runs.forEach(run -> rows.accept(RunRow.of(log, log.run(run.id()).orElseThrow())));
    }
  },
  VECTORS {
    @Override
    void write(BenchLog log, List<RunSummary> runs, Consumer<Row> rows) {
      each(
          log,
          runs,
          (run, table) -> log.forEachVector(run, vector -> rows.accept(table.vector(vector))));
    }
  },
  MOVED {
    @Override
    void write(BenchLog log, List<RunSummary> runs, Consumer<Row> rows) {
      each(
          log,
          runs,
          (run, table) ->
              log.forEachVector(
                  run,
                  vector ->
                      vector.moved().forEach(moved -> rows.accept(table.moved(vector, moved)))));
    }
  },
  REWORKS {
    @Override
    void write(BenchLog log, List<RunSummary> runs, Consumer<Row> rows) {
      runs.stream()
          .map(RunSummary::unit)
          .distinct()
          .flatMap(unit -> log.reworks(unit).stream())
          .forEach(rework -> rows.accept(row(rework)));
    }
  };

  /** All rows for these runs; reworks of their units. */
  abstract void write(BenchLog log, List<RunSummary> runs, Consumer<Row> rows);

  /** What the table is called outside. */
  String title() {
    return name().toLowerCase(Locale.ROOT);
  }

  private static void each(
      BenchLog log, List<RunSummary> runs, BiConsumer<Long, VectorTable> consumer) {
    for (RunSummary run : runs) {
      RunDetail detail = log.run(run.id()).orElseThrow();
      consumer.accept(run.id(), new VectorTable(log, detail));
    }
  }

  private static Row row(Rework rework) {
    UnitId unit = rework.unit();
    return new Row()
        .put("card", unit.card())
        .put("unit", unit.unit())
        .put("simulated", unit.simulated())
        .put("at", rework.at().toString())
        .put("note", rework.note())
        .put("pictures", String.join("; ", rework.pictures()));
  }
}
