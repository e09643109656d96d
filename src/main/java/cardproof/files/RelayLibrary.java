package cardproof.files;

import cardproof.card.wiring.RelayType;
import cardproof.text.Nearest;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * The relay types that a file holds.
 *
 * @param names of all, those among them that could not be read
 */
record RelayLibrary(List<RelayType> types, Set<String> names) {
  static final List<String> KEYS = List.of("relay-types", "types");

  private static final String EXAMPLE = "types: {PT-4-12V: {poles: 4, ...}}";

  static Optional<RelayLibrary> read(Path file, Problems problems) {
    return SourceReader.read(file, problems)
        .flatMap(source -> YamlTree.of(source, problems))
        .flatMap(root -> Kind.RELAY_TYPES.check(root, problems))
        .flatMap(root -> Fields.of(root, "the library of relay types", KEYS, problems))
        .flatMap(fields -> of(fields, problems));
  }

  private static Optional<RelayLibrary> of(Fields fields, Problems problems) {
    fields
        .require("relay-types", "relay-types: relays of the cards")
        .ifPresent(node -> new Texts(problems).title(node, "relay-types"));
    Optional<Node> node = fields.require("types", EXAMPLE);
    if (node.isEmpty()) {
      return Optional.empty();
    }
    if (!(node.get() instanceof Node.Mapping map) || map.entries().isEmpty()) {
      problems.error(
          node.get().at(),
          node.get() instanceof Node.Mapping ? "'types' is empty" : node.get().saidOf("types"),
          "a map of relay types by name",
          EXAMPLE);
      return Optional.empty();
    }
    List<RelayType> types = new ArrayList<>();
    Set<String> names = new HashSet<>();
    RelayTypeReader reader = new RelayTypeReader(problems);
    for (Node.Entry entry : map.entries()) {
      names.add(entry.key().text());
      reader.read(entry).ifPresent(types::add);
    }
    return Optional.of(new RelayLibrary(List.copyOf(types), Set.copyOf(names)));
  }

  /** The type of a name; says so where there is none. */
  Optional<RelayType> type(Node.Text name, Problems problems) {
    String wanted = name.text().strip();
    Optional<RelayType> found =
        types.stream().filter(type -> type.name().equals(wanted)).findFirst();
    if (found.isEmpty() && !names.contains(wanted)) {
      problems.error(
          name.at(),
          "there is no relay type " + name.described(),
          "one of the library's types",
          Nearest.hint(wanted, names.stream().sorted().toList()));
    }
    return found;
  }
}
