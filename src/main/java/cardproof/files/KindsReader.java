package cardproof.files;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** What the references of a netlist are: {@code K*: {relay: PT-4-12V}}, {@code D*: diode}. */
final class KindsReader {
  static final List<String> KEYS = List.of("relay", "resistor", "lamp", "fuse");

  private static final String CONNECTOR = "connector";
  private static final String WANTED =
      "diode, wire, connector, {relay: PT-4-12V}, {resistor: 1 kohm}, {lamp: 12 V 40 mA} or {fuse:"
          + " 3 A}";

  private final RelayTypes types;
  private final Problems problems;
  private final RatingReader ratings;

  KindsReader(RelayTypes types, Problems problems) {
    this.types = types;
    this.problems = problems;
    this.ratings = new RatingReader(problems);
  }

  /** Empty, with a problem said, where it is no map. */
  Optional<Kinds> read(Node node) {
    if (!(node instanceof Node.Mapping map)) {
      problems.error(
          node.at(), node.saidOf("kinds"), "a map such as {K*: {relay: PT-4-12V}, D*: diode}", "");
      return Optional.empty();
    }
    Kinds kinds = new Kinds();
    for (Node.Entry entry : map.entries()) {
      String pattern = entry.key().text();
      if (pattern.isBlank()) {
        problems.error(
            entry.key().at(),
            "a kind for a reference without a name",
            "a reference, or one with * for any signs",
            "");
      }
      kinds.add(entry.key(), kind(entry.value(), pattern));
    }
    return Optional.of(kinds);
  }

  private Optional<NetKind> kind(Node node, String of) {
    if (node instanceof Node.Text text) {
      return word(text, of);
    }
    int before = problems.count();
    Optional<Fields> fields = Fields.of(node, "the kind of '" + of + "'", KEYS, problems);
    if (problems.count() > before) {
      return Optional.empty();
    }
    List<String> given = new ArrayList<>(KEYS);
    given.removeIf(key -> !fields.get().has(key));
    if (given.size() != 1) {
      problems.error(
          node.at(),
          "the kind of '" + of + "' " + (given.isEmpty() ? "says nothing" : "is two things"),
          WANTED,
          "");
      return Optional.empty();
    }
    String key = given.get(0);
    Node value = fields.get().get(key).orElseThrow();
    return switch (key) {
      case "relay" ->
          new Texts(problems)
              .text(value, key, "the name of a relay type")
              .flatMap(types::type)
              .map(NetKind::relay);
      case "resistor" -> ratings.ohms(value, key).map(NetKind::resistor);
      case "lamp" -> ratings.lamp(value, key).map(NetKind::lamp);
      default -> ratings.fuse(value, key).map(NetKind::fuse);
    };
  }

  private Optional<NetKind> word(Node.Text text, String of) {
    return switch (text.text().strip()) {
      case "diode" -> Optional.of(NetKind.diode());
      case "wire" -> Optional.of(NetKind.wire());
      case CONNECTOR -> Optional.empty();
      default -> {
        problems.error(text.at(), text.saidOf(of), WANTED, "");
        yield Optional.empty();
      }
    };
  }
}
