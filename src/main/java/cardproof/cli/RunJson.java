package cardproof.cli;

import cardproof.card.Card;
import cardproof.log.LineName;
import cardproof.log.Verdict;
import cardproof.run.Failure;
import cardproof.run.SupplyTally;
import cardproof.run.WrongBit;
import cardproof.timing.SettleRow;
import cardproof.timing.SettleTimes;
import cardproof.timing.Silence;
import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;

/** A run as one JSON object. Keys are only ever added. */
final class RunJson {
  private RunJson() {}

  static String of(RunResult result) {
    StringWriter text = new StringWriter();
    try (JsonWriter json = new JsonWriter(text)) {
      json.setIndent("  ");
      write(result, json);
    } catch (IOException impossible) {
      throw new UncheckedIOException("writing to memory", impossible);
    }
    return text.toString();
  }

  private static void write(RunResult result, JsonWriter json) throws IOException {
    RunSetup setup = result.setup();
    Card card = setup.plan().card();
    json.beginObject();
    json.name("plan").value(setup.plan().title());
    json.name("card").value(card.name());
    json.name("unit").value(setup.unit());
    json.name("simulated").value(result.simulated());
    json.name("seed");
    if (setup.onBench()) {
      json.value(setup.seed());
    } else {
      json.nullValue();
    }
    json.name("vectors").value(result.planned());
    json.name("verdicts").beginObject();
    for (Verdict verdict :
        List.of(
            Verdict.PASS,
            Verdict.WRONG,
            Verdict.LATE,
            Verdict.DISTURBED,
            Verdict.UNSETTLED,
            Verdict.SUPPLY,
            Verdict.CHATTER,
            Verdict.MEASURED)) {
      json.name(verdict.word()).value(result.tally().count(verdict));
    }
    json.name(Verdict.UNTESTED.word()).value(result.untested());
    json.endObject();
    json.name("notJudgedBits").value(result.tally().notJudgedBits());
    json.name("wallMs").value(result.wallNs() / 1e6);
    json.name("cardMs").value(result.tally().cardUs() / 1e3);
    json.name("settle").beginArray();
    for (SettleRow row : result.settle().rows()) {
      settle(row, card, json);
    }
    json.endArray();
    json.name("failureCount").value(result.tally().failed());
    json.name("failures").beginArray();
    for (Failure failure : result.failures()) {
      failure(failure, json);
    }
    json.endArray();
    json.name("end").value(result.ending().end().word());
    json.name("why").value(result.ending().why());
    json.name("proved").value(result.proved());
    json.name("partial").value(setup.partial());
    json.name("board").value(result.board());
    json.name("run").value(result.runId());
    if (setup.earlier().isPresent()) {
      json.name("continues").value(setup.earlier().get().run());
      json.name("continuesAt").value(setup.earlier().get().at() + 1);
    }
    json.name("log").value(setup.logFile().toString());
    json.name("simulatedFrom").value(setup.onBench() ? result.simulatedFrom() : null);
    supply(result.supply(), json);
    json.name("missing").beginArray();
    for (String words : result.missing()) {
      json.value(words);
    }
    json.endArray();
    json.name("vcd").value(setup.wave().map(wave -> wave.file().toString()).orElse(null));
    json.name("capture")
        .value(setup.capture().map(capture -> capture.file().toString()).orElse(null));
    SweepJson.write(result.sweeps(), card, json);
    json.name("settleVoid").value(result.settle().isVoid());
    json.name("reopenedVectors").value(result.settle().superseded());
    silence(result.settle().silence(), json);
    json.name("clockDriftPercent").value(result.clocks().drift().map(d -> d * 100).orElse(null));
    json.endObject();
  }

  private static void silence(Optional<Silence> silence, JsonWriter json) throws IOException {
    json.name("longestSilence");
    if (silence.isEmpty()) {
      json.nullValue();
      return;
    }
    json.beginObject();
    json.name("us").value(silence.get().gapUs());
    json.name("quietUs").value(silence.get().quietUs());
    json.name("vector").value(silence.get().vector() + 1);
    json.name("at").value(silence.get().origin());
    json.name("endedBy").value(silence.get().endedBy().map(LineName::label).orElse(null));
    json.name("narrowVectors").value(silence.get().narrow());
    json.endObject();
  }

  /** Null where the fixture does not measure it. */
  private static void supply(SupplyTally supply, JsonWriter json) throws IOException {
    json.name("lowestRailMv");
    peak(supply.lowestRail(), json);
    json.name("highestCurrentMa");
    peak(supply.highestCurrent(), json);
  }

  private static void peak(Optional<SupplyTally.Peak> peak, JsonWriter json) throws IOException {
    if (peak.isEmpty()) {
      json.nullValue();
      return;
    }
    json.beginObject();
    json.name("value").value(peak.get().value());
    json.name("vector").value(peak.get().vector());
    json.endObject();
  }

  private static void settle(SettleRow row, Card card, JsonWriter json) throws IOException {
    json.beginObject();
    json.name("line").value(card.lines().get(row.line().line()).name());
    json.name("label").value(row.line().label());
    json.name("direction").value(row.direction());
    json.name("n").value(row.n());
    number(json, "minUs", row, SettleTimes::minUs);
    number(json, "medianUs", row, SettleTimes::medianUs);
    number(json, "maxUs", row, SettleTimes::maxUs);
    json.name("censored").value(row.censored());
    number(json, "p90Us", row, SettleTimes::p90Us);
    json.name("pin").value(row.line().pin());
    json.endObject();
  }

  /** No figure where every sample was cut off. */
  private static void number(
      JsonWriter json, String name, SettleRow row, ToDoubleFunction<SettleTimes> figureUs)
      throws IOException {
    json.name(name);
    if (row.times().isPresent()) {
      json.value(figureUs.applyAsDouble(row.times().get()));
    } else {
      json.nullValue();
    }
  }

  private static void failure(Failure failure, JsonWriter json) throws IOException {
    json.beginObject();
    json.name("vector").value(failure.vector());
    json.name("at").value(failure.at());
    json.name("title").value(failure.title());
    json.name("verdict").value(failure.verdict().word());
    Failure.BusView first = failure.buses().isEmpty() ? null : failure.buses().get(0);
    json.name("bus").value(first == null ? "" : first.bus());
    json.name("wanted").value(first == null ? "" : first.wanted());
    json.name("seen").value(first == null ? "" : first.seen());
    json.name("bits").beginArray();
    for (WrongBit bit : failure.bits()) {
      json.beginObject();
      json.name("line").value(bit.line().name());
      json.name("label").value(bit.line().label());
      json.name("pin").value(bit.line().pin().toString());
      json.name("what").value(bit.what());
      json.endObject();
    }
    json.endArray();
    json.name("why").value(failure.why());
    json.name("driven").value(failure.drives());
    json.name("buses").beginArray();
    for (Failure.BusView bus : failure.buses()) {
      json.beginObject();
      json.name("bus").value(bus.bus());
      json.name("wanted").value(bus.wanted());
      json.name("seen").value(bus.seen());
      json.endObject();
    }
    json.endArray();
    json.endObject();
  }
}
