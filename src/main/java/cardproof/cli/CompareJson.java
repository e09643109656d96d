package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.RunSummary;
import cardproof.timing.compare.LineShift;
import cardproof.timing.compare.TimeComparison;
import cardproof.timing.compare.VerdictChange;
import cardproof.timing.compare.VerdictComparison;
import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;

/** A comparison as one JSON object. Keys are only ever added. */
final class CompareJson {
  private CompareJson() {}

  static void print(CompareView view, BenchLog log, PrintWriter out) {
    JsonPage.print(
        out,
        json -> {
          json.name("unit").value(view.sides().after().get(0).unit().toString());
          JsonPage.numbers(
              json, "before", view.sides().before().stream().map(RunSummary::id).toList());
          JsonPage.numbers(
              json, "after", view.sides().after().stream().map(RunSummary::id).toList());
          JsonPage.numbers(json, "voidRuns", view.leftOut().stream().map(RunSummary::id).toList());
          json.name("rework").value(view.sides().rework().map(r -> r.note()).orElse(null));
          json.name("worse").value(view.isWorse());
          json.name("fixtures").beginArray();
          for (UsedFixture fixture : view.fixtures()) {
            json.value(fixture.toString());
          }
          json.endArray();
          verdicts(json, view.verdicts(), new TransitionWords(log));
          times(json, view.times());
        });
  }

  private static void verdicts(JsonWriter json, VerdictComparison verdicts, TransitionWords words)
      throws IOException {
    json.name("vectorsInCommon").value(verdicts.common());
    json.name("vectorsNotJudgedNow").value(verdicts.missing());
    json.name("matchedByNumber").value(verdicts.match() == VerdictComparison.Match.NUMBER);
    json.name("matchedBy").value(verdicts.match().name().toLowerCase(Locale.ROOT));
    json.name("mcNemarP").value(verdicts.pValue());
    changes(json, "changes", verdicts.changes(), words);
    changes(json, "failSometimes", verdicts.sometimes(), words);
  }

  private static void changes(
      JsonWriter json, String name, List<VerdictChange> changes, TransitionWords words)
      throws IOException {
    json.name(name).beginArray();
    for (VerdictChange change : changes) {
      json.beginObject();
      json.name("vector").value(change.after().vector() + 1);
      json.name("at").value(words.place(change.after().run(), change.after().vector()));
      json.name("failsNow").value(change.isWorse());
      json.name("failedBefore").value(change.before().failed());
      json.name("judgedBefore").value(change.before().judged());
      json.name("failedAfter").value(change.after().failed());
      json.name("judgedAfter").value(change.after().judged());
      json.endObject();
    }
    json.endArray();
  }

  private static void times(JsonWriter json, TimeComparison times) throws IOException {
    json.name("spreadUs");
    if (times.spreadUs().isPresent()) {
      json.value(times.spreadUs().getAsDouble());
    } else {
      json.nullValue();
    }
    json.name("takenOffUs").value(times.removedUs());
    json.name("lines").beginArray();
    for (LineShift line : times.lines()) {
      json.beginObject();
      json.name("line").value(line.line().bus() + "[" + line.line().bit() + "]");
      json.name("label").value(line.line().label());
      json.name("direction").value(line.direction());
      json.name("pairs").value(line.shift().n());
      json.name("shiftUs").value(line.shift().estimate());
      bound(json, "lowUs", line.lowUs());
      bound(json, "highUs", line.highUs());
      json.name("tenthUs").value(line.tenthUs());
      bound(json, "marginUs", line.marginUs());
      json.name("pHolm").value(line.adjustedP());
      json.name("change").value(CompareWords.change(line.change()));
      json.name("unsettledBefore").value(line.unsettledBefore());
      json.name("unsettledAfter").value(line.unsettledAfter());
      json.endObject();
    }
    json.endArray();
  }

  /** No figure where there is no bound. */
  private static void bound(JsonWriter json, String name, double us) throws IOException {
    json.name(name);
    if (Double.isFinite(us)) {
      json.value(us);
    } else {
      json.nullValue();
    }
  }
}
