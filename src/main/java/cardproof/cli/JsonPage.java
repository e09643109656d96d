package cardproof.cli;

import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.util.List;

/** What a command prints for another program: one JSON object, indented. */
final class JsonPage {
  /** Writes the keys of the object. */
  interface Keys {
    void write(JsonWriter json) throws IOException;
  }

  private JsonPage() {}

  static void print(PrintWriter out, Keys keys) {
    try {
      JsonWriter json = new JsonWriter(out);
      json.setIndent("  ");
      json.beginObject();
      keys.write(json);
      json.endObject();
      json.flush();
      out.println();
    } catch (IOException e) {
      throw new UncheckedIOException("writing to standard output", e);
    }
  }

  /** A key with numbers, such as those of runs. */
  static void numbers(JsonWriter json, String name, List<Long> numbers) throws IOException {
    json.name(name).beginArray();
    for (long number : numbers) {
      json.value(number);
    }
    json.endArray();
  }
}
