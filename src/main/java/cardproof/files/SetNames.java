package cardproof.files;

import cardproof.bits.Literal;
import cardproof.bits.LiteralException;
import cardproof.text.Nearest;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** The names that a plan gives to words and to lists of words, under {@code set}. */
final class SetNames {
  private final Map<String, String> words = new HashMap<>();
  private final Map<String, List<Node.Text>> lists = new HashMap<>();

  /** Reads names in the order in which they are set; a value may use those set before it. */
  void set(Node.Text name, Node value, Problems problems) {
    if (value instanceof Node.Listing list) {
      list(name, list, problems);
    } else if (value instanceof Node.Text text && !text.text().isBlank()) {
      if (lists.containsKey(text.text().strip())) {
        lists.put(name.text(), lists.get(text.text().strip()));
      } else {
        number(text, problems).ifPresent(number -> words.put(name.text(), number));
      }
    } else {
      problems.error(
          value.at(),
          value.saidOf(name.text()),
          "a number such as 0x1F, or a list such as [0, 0x1F]",
          "");
    }
  }

  private void list(Node.Text name, Node.Listing list, Problems problems) {
    if (list.items().isEmpty()) {
      problems.error(
          list.at(), "'" + name.text() + "' is an empty list", "at least one number", "");
    }
    Texts texts = new Texts(problems);
    List<Node.Text> items =
        list.items().stream()
            .flatMap(item -> texts.text(item, name.text(), "a number").stream())
            .flatMap(item -> number(item, problems).map(number -> item.written(number)).stream())
            .toList();
    lists.put(name.text(), items);
  }

  private Optional<String> number(Node.Text text, Problems problems) {
    return new Numbers(problems, this)
        .literal(text, "a number, or a name that is set before this one")
        .map(literal -> word(text.text()).orElse(text.text().strip()));
  }

  /** The number, as written, that a name stands for. */
  Optional<String> word(String name) {
    return Optional.ofNullable(words.get(name.strip()));
  }

  /** The number that a name stands for. */
  Optional<Literal> literal(String name) {
    return word(name).map(SetNames::parsed);
  }

  private static Literal parsed(String number) {
    try {
      return Literal.parse(number);
    } catch (LiteralException impossible) {
      throw new IllegalStateException("it was a number when it was set", impossible);
    }
  }

  boolean isList(String name) {
    return lists.containsKey(name.strip());
  }

  boolean has(String name) {
    return words.containsKey(name.strip()) || isList(name);
  }

  /** In words, what a name that is set is: {@code names a number under 'set', and no bus}. */
  String instead(String name) {
    return "names a " + (isList(name) ? "list of numbers" : "number") + " under 'set', and no bus";
  }

  /** The list that a text names, as if it were written where the text stands. */
  Optional<Node.Listing> list(Node node) {
    if (!(node instanceof Node.Text text) || !isList(text.text())) {
      return Optional.empty();
    }
    List<Node> items =
        lists.get(text.text().strip()).stream()
            .<Node>map(item -> text.written(item.text()))
            .toList();
    return Optional.of(new Node.Listing(text.at(), text.raw(), false, items));
  }

  Set<String> words() {
    return new TreeSet<>(words.keySet());
  }

  /** {@code Did you mean 'NEAP'?}, or empty. */
  String hint(String name) {
    Set<String> all = words();
    all.addAll(lists.keySet());
    return Nearest.to(name.strip(), all).map(near -> "Did you mean '" + near + "'?").orElse("");
  }
}
