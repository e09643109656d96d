package cardproof.files;

import com.google.gson.Gson;
import com.google.gson.GsonBuilder;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/**
 * The JSON Schema (draft 2020-12) of each kind of file, for editors to complete keys and show what
 * they mean. It holds keys, their structure and the forms of their values; what names refer to, and
 * which width a number must fit, stays with the readers. Values may come as text or as what a
 * translation from YAML to JSON makes of them.
 *
 * <p>What kinds have in common is written once, in files of definitions; each kind takes along
 * those that it refers to.
 */
public enum FileSchema {
  CARD,
  PAIR,
  PLAN,
  PROCEDURES,
  FIXTURE,
  RELAYS;

  private static final List<String> COMMON = List.of("scalars", "steps", "wiring");
  private static final String DEFINITIONS = "$defs";
  private static final String REFERENCE = "#/$defs/";

  /** What the kind is called. */
  public String kind() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The kinds, in order. */
  public static List<String> kinds() {
    return Arrays.stream(values()).map(FileSchema::kind).toList();
  }

  /** The schema of a kind; empty where there is no such kind. */
  public static Optional<FileSchema> of(String kind) {
    return Arrays.stream(values()).filter(schema -> schema.kind().equals(kind)).findFirst();
  }

  /** The whole schema, which refers to nothing outside itself. */
  public String text() {
    Gson gson = new GsonBuilder().setPrettyPrinting().disableHtmlEscaping().create();
    return gson.toJson(json());
  }

  private JsonObject json() {
    JsonObject schema = resource(kind());
    JsonObject known = new JsonObject();
    take(schema, known);
    COMMON.forEach(common -> take(resource(common), known));
    Set<String> used = new LinkedHashSet<>();
    Deque<JsonElement> open = new ArrayDeque<>(List.of(schema));
    while (!open.isEmpty()) {
      for (String name : references(open.pop())) {
        if (used.add(name)) {
          open.add(known.get(name));
        }
      }
    }
    JsonObject definitions = new JsonObject();
    used.forEach(name -> definitions.add(name, known.get(name)));
    schema.add(DEFINITIONS, definitions);
    return schema;
  }

  private static void take(JsonObject from, JsonObject into) {
    JsonElement definitions = from.remove(DEFINITIONS);
    if (definitions != null) {
      definitions.getAsJsonObject().entrySet().forEach(e -> into.add(e.getKey(), e.getValue()));
    }
  }

  private static Set<String> references(JsonElement element) {
    Set<String> found = new LinkedHashSet<>();
    if (element.isJsonArray()) {
      element.getAsJsonArray().forEach(item -> found.addAll(references(item)));
    } else if (element.isJsonObject()) {
      element
          .getAsJsonObject()
          .entrySet()
          .forEach(
              entry -> {
                JsonElement value = entry.getValue();
                if (entry.getKey().equals("$ref") && value.isJsonPrimitive()) {
                  found.add(value.getAsString().substring(REFERENCE.length()));
                } else {
                  found.addAll(references(value));
                }
              });
    }
    return found;
  }

  private static JsonObject resource(String name) {
    String path = "/cardproof/schema/" + name + ".json";
    try (InputStream in = FileSchema.class.getResourceAsStream(path)) {
      if (in == null) {
        throw new IllegalStateException("the program has lost its file " + path);
      }
      Reader text = new InputStreamReader(in, StandardCharsets.UTF_8);
      return JsonParser.parseReader(text).getAsJsonObject();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
