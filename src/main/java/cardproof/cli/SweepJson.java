package cardproof.cli;

import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.log.SweepLine;
import cardproof.log.SweepRecord;
import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.util.List;
import java.util.OptionalLong;

/** What sweeps found, as an array of objects. Keys are only ever added. */
final class SweepJson {
  private SweepJson() {}

  static void write(List<SweepRecord> sweeps, Card card, JsonWriter json) throws IOException {
    json.name("sweeps").beginArray();
    for (SweepRecord sweep : sweeps) {
      json.beginObject();
      json.name("what").value(sweep.what());
      json.name("firstTrial").value(sweep.firstTrial() + 1);
      json.name("fromUs").value(sweep.fromUs());
      json.name("toUs").value(sweep.toUs());
      json.name("resolutionUs").value(sweep.resolutionUs());
      optional(json, "atMostUs", sweep.atMostUs());
      json.name("trials").value(sweep.trials());
      json.name("cutShort").value(sweep.cutShort());
      json.name("lines").beginArray();
      for (SweepLine line : sweep.lines()) {
        write(line, card.lines().get(line.line()), json);
      }
      json.endArray();
      json.endObject();
    }
    json.endArray();
  }

  private static void write(SweepLine found, Line line, JsonWriter json) throws IOException {
    json.beginObject();
    json.name("line").value(line.name());
    json.name("label").value(line.label());
    json.name("pin").value(line.pin().toString());
    json.name("direction").value(found.rising() ? "rising" : "falling");
    optional(json, "workedUs", found.workedUs());
    json.name("workedThere").value(found.atEdge());
    optional(json, "failedUs", found.failedUs());
    optional(json, "everWorkedUs", found.everWorkedUs());
    json.name("mixed").value(found.mixed());
    json.name("trials").value(found.trials());
    json.endObject();
  }

  private static void optional(JsonWriter json, String name, OptionalLong value)
      throws IOException {
    json.name(name);
    if (value.isPresent()) {
      json.value(value.getAsLong());
    } else {
      json.nullValue();
    }
  }
}
