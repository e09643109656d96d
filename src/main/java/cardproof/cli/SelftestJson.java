package cardproof.cli;

import cardproof.fixture.Plug;
import cardproof.fixture.selftest.Finding;
import cardproof.fixture.selftest.PlugEnding;
import cardproof.fixture.selftest.SelfTest;
import cardproof.fixture.selftest.SelfTestResult;
import cardproof.fixture.selftest.Slow;
import cardproof.fixture.selftest.Span;
import cardproof.fixture.selftest.Trouble;
import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** A self-test as one JSON object. Keys are only ever added. */
final class SelftestJson {
  private SelftestJson() {}

  static String of(SelftestSetup setup, SelfTest test, Optional<PlugEnding> ending) {
    StringWriter text = new StringWriter();
    try (JsonWriter json = new JsonWriter(text)) {
      json.setIndent("  ");
      json.beginObject();
      json.name("fixture").value(setup.profile().name());
      json.name("simulated").value(setup.onBench() || test.onBoardThatSimulates());
      json.name("faults");
      strings(setup.faultNames(), json);
      json.name("end")
          .value(ending.map(e -> e.kind().name()).orElse("FINISHED").toLowerCase(Locale.ROOT));
      json.name("why").value(ending.map(e -> e.problem().found()).orElse(""));
      if (ending.isPresent()) {
        json.name("passed").value(false);
        json.name("proved").value(false);
      } else {
        write(test.result(), json);
      }
      json.endObject();
    } catch (IOException impossible) {
      throw new UncheckedIOException("writing to memory", impossible);
    }
    return text.toString();
  }

  private static void write(SelfTestResult result, JsonWriter json) throws IOException {
    json.name("board").value(result.board().board());
    json.name("passed").value(result.passed());
    json.name("proved").value(result.proved());
    json.name("plugs").beginArray();
    for (Plug plug : result.plugs()) {
      json.beginObject();
      json.name("plug").value(plug.number());
      json.name("wiring").value(plug.wiring());
      json.endObject();
    }
    json.endArray();
    json.name("wrongPlugs");
    strings(result.wrongPlugs(), json);
    json.name("findings").beginArray();
    for (Finding finding : result.findings()) {
      finding(finding, json);
    }
    json.endArray();
    json.name("slow").beginArray();
    for (Slow slow : result.delays().slow()) {
      json.beginObject();
      json.name("says").value(slow.sentence());
      json.name("direction").value(slow.rising() ? "rising" : "falling");
      number("drive", slow.drive(), json);
      number("watch", slow.watch(), json);
      json.name("us").value(slow.us());
      json.name("othersUs").value(slow.othersUs());
      json.endObject();
    }
    json.endArray();
    json.name("unrest");
    strings(result.unrest().stream().map(SelftestRows::sentence).toList(), json);
    json.name("unexplained");
    strings(result.unexplained(), json);
    json.name("channels").beginArray();
    for (SelftestRows.Row row : new SelftestRows(result).rows()) {
      json.beginObject();
      json.name("drive").value(row.join().drive());
      json.name("watch").value(row.join().watch());
      span("riseUs", row.rise(), json);
      span("fallUs", row.fall(), json);
      json.name("ok").value(row.ok());
      json.name("verdict").value(row.verdict());
      json.endObject();
    }
    json.endArray();
    span("delayUs", result.delays().both(), json);
    json.name("offeredDelayUs").value(result.delays().offerUs());
    json.name("samplingNs").value(result.delays().periodNs());
    json.name("patternsLeftOut").value(result.leftOut());
  }

  private static void finding(Finding finding, JsonWriter json) throws IOException {
    json.beginObject();
    json.name("says").value(finding.sentence());
    json.name("oneOf").beginArray();
    for (Trouble trouble : finding.oneOf()) {
      json.beginObject();
      json.name("kind").value(trouble.kind().name().toLowerCase(Locale.ROOT).replace('_', ' '));
      json.name("plug");
      if (trouble.plug() > 0) {
        json.value(trouble.plug());
      } else {
        json.nullValue();
      }
      json.name("first").value(trouble.first());
      json.name("last").value(trouble.last());
      json.endObject();
    }
    json.endArray();
    json.endObject();
  }

  private static void span(String name, Optional<Span> span, JsonWriter json) throws IOException {
    json.name(name);
    if (span.isEmpty()) {
      json.nullValue();
      return;
    }
    json.beginObject();
    json.name("min").value(span.get().leastUs());
    json.name("median").value(span.get().medianUs());
    json.name("max").value(span.get().mostUs());
    json.name("n").value(span.get().times());
    json.endObject();
  }

  private static void number(String name, int channel, JsonWriter json) throws IOException {
    json.name(name);
    if (channel < 0) {
      json.nullValue();
    } else {
      json.value(channel);
    }
  }

  private static void strings(List<String> all, JsonWriter json) throws IOException {
    json.beginArray();
    for (String one : all) {
      json.value(one);
    }
    json.endArray();
  }
}
