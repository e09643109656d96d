package cardproof.files;

import cardproof.text.Nearest;
import cardproof.text.Position;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** A map of which every key has a meaning; keys with none are refused when it is made. */
final class Fields {
  private final Position at;
  private final String owner;
  private final Problems problems;
  private final Map<String, Node.Entry> values = new LinkedHashMap<>();

  private Fields(Node.Mapping map, String owner, List<String> known, Problems problems) {
    this.at = map.at();
    this.owner = owner;
    this.problems = problems;
    for (Node.Entry entry : map.entries()) {
      if (known.contains(entry.key().text())) {
        values.put(entry.key().text(), entry);
      } else {
        unknown(entry.key(), known);
      }
    }
  }

  /**
   * @param owner what the map describes, as in "bus 'A'"
   * @return empty, with a problem said, where the node is no map
   */
  static Optional<Fields> of(Node node, String owner, List<String> known, Problems problems) {
    if (node instanceof Node.Mapping map) {
      return Optional.of(new Fields(map, owner, known, problems));
    }
    problems.error(
        node.at(),
        node.described() + " stands where " + owner + " is described",
        "a map with keys out of " + String.join(", ", known),
        "");
    return Optional.empty();
  }

  private void unknown(Node.Text key, List<String> known) {
    boolean pin = key.text().matches(PinReader.PINS);
    problems.error(
        key.at(),
        "unknown key " + key.described() + " in " + owner,
        "one of " + String.join(", ", known),
        pin
            ? "A comma ends a value inside { }: write several pins as at: [J4.1, J4.3]"
            : Nearest.to(key.text(), known).map(near -> "Did you mean '" + near + "'?").orElse(""));
  }

  Position at() {
    return at;
  }

  boolean has(String key) {
    return values.containsKey(key);
  }

  Optional<Node> get(String key) {
    return entry(key).map(Node.Entry::value);
  }

  Optional<Node.Entry> entry(String key) {
    return Optional.ofNullable(values.get(key));
  }

  /**
   * @param example the key with a value, to be copied
   * @return empty, with a problem said, where the key is missing
   */
  Optional<Node> require(String key, String example) {
    if (!has(key)) {
      problems.error(at, owner + " has no '" + key + "'", example, "");
    }
    return get(key);
  }
}
