package cardproof.files;

import cardproof.text.Nearest;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Entries of {@code parts}, each with its kind, its name, its place and its repeat. */
final class PartReader {
  private final Problems problems;
  private final RelayReader relays;
  private final UseReader uses;
  private final EndsReader ends;

  PartReader(RelayTypes types, Map<String, Block> blocks, Problems problems) {
    this.problems = problems;
    this.relays = new RelayReader(types, problems);
    this.uses = new UseReader(blocks, problems);
    this.ends = new EndsReader(problems);
  }

  /**
   * All entries of a list that could be read.
   *
   * @param owner what the list belongs to, in words
   */
  List<PartEntry> readAll(Node node, String owner) {
    List<PartEntry> entries = new ArrayList<>();
    if (!(node instanceof Node.Listing list) || list.items().isEmpty()) {
      problems.error(
          node.at(),
          node instanceof Node.Listing ? owner + " has no parts" : node.saidOf("parts"),
          "a list of parts, each a line that begins with '- ' and a kind, such as - wire: W1",
          "");
      return entries;
    }
    list.items().forEach(item -> read(item).ifPresent(entries::add));
    return entries;
  }

  private Optional<PartEntry> read(Node node) {
    if (!(node instanceof Node.Mapping map)) {
      problems.error(
          node.at(),
          node.described() + " stands where a part is described",
          "a map with one of the keys " + String.join(", ", PartKind.allKeys()),
          "");
      return Optional.empty();
    }
    List<PartKind> kinds =
        Arrays.stream(PartKind.values())
            .filter(k -> map.entries().stream().anyMatch(e -> e.key().text().equals(k.key())))
            .toList();
    if (kinds.size() != 1) {
      noKind(map, kinds);
      return Optional.empty();
    }
    PartKind kind = kinds.get(0);
    String nameKey = kind == PartKind.BLOCK ? "named" : kind.key();
    return Fields.of(map, "this " + words(kind), kind.keys(), problems)
        .flatMap(fields -> entry(fields, kind, nameKey));
  }

  private static String words(PartKind kind) {
    return kind == PartKind.BLOCK ? "use of a block" : kind.key();
  }

  private void noKind(Node.Mapping map, List<PartKind> kinds) {
    String next =
        map.entries().stream()
            .filter(entry -> kinds.isEmpty())
            .flatMap(entry -> Nearest.to(entry.key().text(), PartKind.allKeys()).stream())
            .findFirst()
            .map(near -> "Did you mean '" + near + "'?")
            .orElse("");
    problems.error(
        map.at(),
        kinds.isEmpty()
            ? "this part does not say what it is"
            : "this part is both a " + kinds.get(0).key() + " and a " + kinds.get(1).key(),
        "one of the keys " + String.join(", ", PartKind.allKeys()) + ", with its name",
        next);
  }

  private Optional<PartEntry> entry(Fields fields, PartKind kind, String nameKey) {
    Optional<Repeat> repeat = new RepeatReader(problems).read(fields.get("for"));
    if (repeat.isEmpty()) {
      return Optional.empty();
    }
    List<String> names = repeat.get().names();
    Optional<IndexText> name =
        fields
            .require(nameKey, nameKey + ": BIT[i]")
            .flatMap(node -> new Texts(problems).text(node, nameKey, "a name such as K3 or K[i]"))
            .flatMap(text -> IndexText.read(text, IndexText.Use.PART, names, problems));
    Optional<Optional<SpotText>> spot =
        fields.has("at")
            ? SpotText.read(fields.get("at").orElseThrow(), "at", names, problems).map(Optional::of)
            : Optional.of(Optional.empty());
    Optional<PartForm> form = form(fields, kind, names);
    if (name.isEmpty() || spot.isEmpty() || form.isEmpty() || !told(name.get(), repeat.get())) {
      return Optional.empty();
    }
    return Optional.of(new PartEntry(name.get(), repeat.get(), spot.get(), form.get()));
  }

  /** Each name of the repeat must be in the part's, or two parts would have one name. */
  private boolean told(IndexText name, Repeat repeat) {
    for (Repeat.Loop loop : repeat.loops()) {
      if (loop.count() > 1 && !name.uses(loop.name())) {
        problems.error(
            name.at(),
            "this is repeated over '"
                + loop.name()
                + "', which "
                + name.text().described()
                + " does not have in it",
            "a name of its own each time",
            "Write " + name.text().text() + "[" + loop.name() + "]");
        return false;
      }
    }
    return true;
  }

  private Optional<PartForm> form(Fields fields, PartKind kind, List<String> repeats) {
    return switch (kind) {
      case RELAY -> relays.read(fields, repeats);
      case BLOCK -> uses.read(fields, repeats);
      default -> ends.read(fields, kind, repeats);
    };
  }
}
