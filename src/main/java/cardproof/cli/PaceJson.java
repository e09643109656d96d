package cardproof.cli;

import cardproof.log.BenchLog;
import cardproof.timing.pace.PaceReading;
import cardproof.timing.pace.PacedTransition;
import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.HexFormat;
import java.util.OptionalDouble;

/** A pace as one JSON object. Keys are only ever added. */
final class PaceJson {
  private PaceJson() {}

  static void print(PaceFindings found, BenchLog log, PrintWriter out) {
    JsonPage.print(
        out,
        json -> {
          json.name("unit").value(found.unit());
          number(json, "periodUs", found.periodUs());
          number(
              json,
              "hertz",
              found.periodUs().isPresent()
                  ? OptionalDouble.of(1e6 / found.periodUs().getAsDouble())
                  : OptionalDouble.empty());
          number(json, "longestUs", OptionalDouble.of(found.longestUs()));
          json.name("guardPercent").value(found.guardPercent());
          json.name("receiverUs").value(found.receiverUs());
          json.name("share").value(found.share());
          json.name("repeatsWanted").value(found.wanted());
          json.name("boundedRuns").value(found.boundedRuns());
          json.name("shareOfFutureRuns")
              .value(
                  found.boundedCycles() == 0
                      ? 0
                      : PaceReading.shareOfFutureRuns(found.boundedCycles()));
          json.name("powerCycles").value(found.powerCycles());
          json.name("missing").value(found.missing());
          json.name("longestPoweredUs").value(found.conditions().longestPoweredUs());
          json.name("lowestRailMv");
          if (found.conditions().lowestRailMv().isPresent()) {
            json.value(found.conditions().lowestRailMv().getAsInt());
          } else {
            json.nullValue();
          }
          json.name("unsettled").value(found.unsettled());
          JsonPage.numbers(json, "runs", found.runs());
          JsonPage.numbers(json, "voidRuns", found.leftOut());
          json.name("path").beginArray();
          for (String relay : found.path()) {
            json.value(relay);
          }
          json.endArray();
          json.name("transitions").beginArray();
          TransitionWords words = new TransitionWords(log);
          for (PacedTransition each : found.slowest()) {
            transition(json, words, each);
          }
          json.endArray();
        });
  }

  private static void transition(JsonWriter json, TransitionWords words, PacedTransition each)
      throws IOException {
    json.beginObject();
    json.name("transition").value(HexFormat.of().toHexDigits(each.transition()));
    json.name("drives").value(words.drives(each.run(), each.vector()));
    json.name("line").value(each.line().bus() + "[" + each.line().bit() + "]");
    json.name("direction").value(each.endsHigh() ? "rising" : "falling");
    json.name("n").value(each.n());
    number(json, "largestUs", OptionalDouble.of(each.largestUs()));
    json.name("run").value(each.run());
    json.name("vector").value(each.vector() + 1);
    json.name("at").value(words.place(each.run(), each.vector()));
    json.endObject();
  }

  /** No figure where there is none, or where nothing was seen to end. */
  private static void number(JsonWriter json, String name, OptionalDouble value)
      throws IOException {
    json.name(name);
    if (value.isPresent() && Double.isFinite(value.getAsDouble())) {
      json.value(value.getAsDouble());
    } else {
      json.nullValue();
    }
  }
}
