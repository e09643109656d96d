package cardproof.cli;

import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.plan.Vector;
import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.io.Writer;

/** Vectors as one JSON array, an object a line. Keys are only ever added. */
final class VectorJson implements VectorFormat {
  private final Card card;
  private final Writer out;
  private final JsonWriter json;

  VectorJson(Card card, Writer out) {
    this.card = card;
    this.out = out;
    this.json = new JsonWriter(out);
  }

  @Override
  public void begin() throws IOException {
    json.beginArray();
  }

  @Override
  public void add(Vector vector, boolean audit) throws IOException {
    // The JSON writer keeps nothing back, so a line end may go straight to what it writes on.
    out.write('\n');
    json.beginObject();
    json.name("vector").value(vector.number() + 1);
    json.name("at").value(vector.origin());
    json.name("title").value(vector.step().title());
    json.name("phase").value(vector.phase().words());
    json.name("drive").beginObject();
    for (int b = 0; b < card.buses().size(); b++) {
      Bus bus = card.buses().get(b);
      if (bus.role().driven()) {
        json.name(bus.name()).value(VectorWords.driven(vector, b));
      }
    }
    json.endObject();
    json.name("expect").beginObject();
    for (int b = 0; b < card.buses().size(); b++) {
      Bus bus = card.buses().get(b);
      if (bus.role().watched()) {
        json.name(bus.name()).value(VectorWords.expected(vector, b));
      }
    }
    json.endObject();
    json.name("still").beginArray();
    for (String line : VectorWords.still(vector)) {
      json.value(line);
    }
    json.endArray();
    json.name("settleUs").value(vector.timing().longestLimitUs());
    json.name("quietUs").value(vector.timing().quietUs());
    json.name("watchUs").value(vector.timing().watchUs());
    json.name("audit").value(audit);
    json.endObject();
  }

  @Override
  public void end() throws IOException {
    out.write('\n');
    json.endArray();
    json.flush();
    out.write('\n');
  }
}
