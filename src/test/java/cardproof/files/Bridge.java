package cardproof.files;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.Yaml;
import org.yaml.snakeyaml.constructor.SafeConstructor;

/** Ways from YAML to JSON, which differ in what they take a scalar without quotes for. */
enum Bridge {
  /** Every scalar stays a text, as for our readers. */
  TEXT {
    @Override
    JsonNode scalar(Node.Text text) {
      return JSON.textNode(text.text());
    }
  },
  /** The core schema of YAML 1.2.2 (section 10.3.2), as editors take it. */
  CORE {
    @Override
    JsonNode scalar(Node.Text text) {
      String plain = text.text();
      if (text.quoted() || text.raw().startsWith("|") || text.raw().startsWith(">")) {
        return JSON.textNode(plain);
      }
      if (plain.matches("null|Null|NULL|~|")) {
        return JSON.nullNode();
      }
      if (plain.matches("true|True|TRUE|false|False|FALSE")) {
        return JSON.booleanNode(plain.toLowerCase(java.util.Locale.ROOT).equals("true"));
      }
      if (plain.matches("[-+]?[0-9]+")) {
        return JSON.numberNode(new BigInteger(plain));
      }
      if (plain.matches("0o[0-7]+")) {
        return JSON.numberNode(new BigInteger(plain.substring(2), 8));
      }
      if (plain.matches("0x[0-9a-fA-F]+")) {
        return JSON.numberNode(new BigInteger(plain.substring(2), 16));
      }
      if (plain.matches("[-+]?(\\.[0-9]+|[0-9]+(\\.[0-9]*)?)([eE][-+]?[0-9]+)?")) {
        return JSON.numberNode(new BigDecimal(plain));
      }
      return JSON.textNode(plain);
    }
  },
  /** YAML 1.1, with its sexagesimal numbers, its octal ones and its many truth values. */
  OLD {
    @Override
    JsonNode scalar(Node.Text text) {
      throw new IllegalStateException("goes its own way");
    }

    @Override
    Optional<JsonNode> read(Path file) {
      if (TEXT.read(file).isEmpty()) {
        return Optional.empty();
      }
      Problems problems = new Problems(file);
      String text = SourceReader.read(file, problems).orElseThrow().text();
      Object loaded = new Yaml(new SafeConstructor(new LoaderOptions())).load(text);
      return Optional.of(json(loaded));
    }

    private JsonNode json(Object value) {
      if (value instanceof Map<?, ?> map) {
        ObjectNode object = JSON.objectNode();
        map.forEach((key, item) -> object.set(String.valueOf(key), json(item)));
        return object;
      }
      if (value instanceof List<?> list) {
        ArrayNode array = JSON.arrayNode();
        list.forEach(item -> array.add(json(item)));
        return array;
      }
      return new ObjectMapper().valueToTree(value);
    }
  };

  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

  abstract JsonNode scalar(Node.Text text);

  /** Empty where the file is no YAML that these files use, so that no schema gets to see it. */
  Optional<JsonNode> read(Path file) {
    return read(file, this);
  }

  private static Optional<JsonNode> read(Path file, Bridge bridge) {
    Problems problems = new Problems(file);
    Optional<Node> tree =
        SourceReader.read(file, problems).flatMap(source -> YamlTree.of(source, problems));
    return problems.count() > 0 ? Optional.empty() : tree.map(bridge::json);
  }

  private JsonNode json(Node node) {
    if (node instanceof Node.Listing list) {
      ArrayNode array = JSON.arrayNode();
      list.items().forEach(item -> array.add(json(item)));
      return array;
    }
    if (node instanceof Node.Mapping map) {
      ObjectNode object = JSON.objectNode();
      map.entries().forEach(entry -> object.set(entry.key().text(), json(entry.value())));
      return object;
    }
    return scalar((Node.Text) node);
  }
}
