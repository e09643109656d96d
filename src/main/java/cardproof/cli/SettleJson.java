package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.log.RunSummary;
import cardproof.timing.SettleTimes;
import cardproof.timing.history.LineHistory;
import cardproof.timing.history.TransitionRow;
import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.util.HexFormat;
import java.util.Optional;

/** Settle times of a unit as one JSON object. Keys are only ever added. */
final class SettleJson {
  private SettleJson() {}

  static void print(SettleView view, BenchLog log, PrintWriter out) {
    JsonPage.print(
        out,
        json -> {
          json.name("card").value(view.unit().card());
          json.name("unit").value(view.unit().unit());
          json.name("simulated").value(view.unit().simulated());
          JsonPage.numbers(json, "runs", view.runs().stream().map(RunSummary::id).toList());
          JsonPage.numbers(json, "voidRuns", view.leftOut().stream().map(RunSummary::id).toList());
          json.name("lines").beginArray();
          TransitionWords words = new TransitionWords(log);
          for (LineHistory line : view.lines()) {
            line(json, words, line);
          }
          json.endArray();
        });
  }

  private static void line(JsonWriter json, TransitionWords words, LineHistory line)
      throws IOException {
    json.beginObject();
    json.name("line").value(line.line().bus() + "[" + line.line().bit() + "]");
    json.name("label").value(line.line().label());
    json.name("pin").value(line.line().pin());
    json.name("direction").value(line.endsHigh() ? "rising" : "falling");
    json.name("pooled").beginObject();
    figures(json, line.pooled().times(), line.pooled().censored());
    json.endObject();
    json.name("transitions").beginArray();
    line.forEachTransition(row -> transition(json, words, row));
    json.endArray();
    json.endObject();
  }

  private static void transition(JsonWriter json, TransitionWords words, TransitionRow row) {
    try {
      json.beginObject();
      json.name("transition").value(HexFormat.of().toHexDigits(row.transition()));
      json.name("drives").value(words.drives(row.run(), row.vector()));
      json.name("run").value(row.run());
      json.name("vector").value(row.vector() + 1);
      json.name("at").value(words.place(row.run(), row.vector()));
      figures(json, row.times(), row.censored());
      json.endObject();
    } catch (IOException e) {
      throw new UncheckedIOException("writing to standard output", e);
    }
  }

  private static void figures(JsonWriter json, Optional<SettleTimes> times, long censored)
      throws IOException {
    json.name("n").value(times.map(SettleTimes::n).orElse(0) + censored);
    json.name("minUs").value(times.map(SettleTimes::minUs).orElse(null));
    json.name("medianUs").value(times.map(SettleTimes::medianUs).orElse(null));
    json.name("p90Us").value(times.map(SettleTimes::p90Us).orElse(null));
    json.name("maxUs").value(times.map(SettleTimes::maxUs).orElse(null));
    json.name("censored").value(censored);
  }
}
