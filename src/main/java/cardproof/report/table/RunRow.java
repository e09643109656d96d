package cardproof.report.table;

import cardproof.log.BenchLog;
import cardproof.log.FixtureUsed;
import cardproof.log.RunDetail;
import cardproof.log.RunSummary;
import cardproof.log.Verdict;
import cardproof.timing.RunSettles;
import java.time.Instant;
import java.util.OptionalLong;

/** A run as a row. Columns are only ever added. */
final class RunRow {
  private RunRow() {}

  static Row of(BenchLog log, RunDetail detail) {
    RunSummary run = detail.summary();
    FixtureUsed fixture = detail.start().fixture();
    Row row =
        new Row()
            .put("run", run.id())
            .put("card", run.unit().card())
            .put("unit", run.unit().unit())
            .put("simulated", run.unit().simulated())
            .put("plan", run.plan())
            .put("plan_title", run.planTitle())
            .put("started", run.started().toString())
            .put("ended", run.ended().map(Instant::toString).orElse(null))
            .put("end", run.end().word())
            .put("why", run.why())
            .put("proved", run.proved())
            .put("partial", run.partial())
            .put("planned", run.planned())
            .put("continues", run.continues().map(before -> before.run()).orElse(null));
    for (Verdict verdict : Verdict.values()) {
      row.put(verdict.word(), run.counts().get(verdict));
    }
    return row.put("settle_void", RunSettles.isVoid(log, run.id()))
        .put("seed", number(detail.start().seed()))
        .put("faults", String.join("; ", detail.start().faults()))
        .put("board", fixture.board())
        .put("firmware", fixture.firmware())
        .put("board_id", Long.toHexString(fixture.boardId()))
        .put("sampling_ns", fixture.samplingNs())
        .put("port", fixture.port())
        .put("clock_off_ppm", number(log.clockOffPpm(run.id())))
        .put("host", run.host())
        .put("note", detail.start().note());
  }

  private static Object number(OptionalLong value) {
    return value.isPresent() ? value.getAsLong() : null;
  }
}
