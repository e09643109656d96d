package cardproof.files;

import cardproof.bits.Literal;
import cardproof.plan.Axis;
import cardproof.plan.Generator;
import cardproof.plan.Generators;
import cardproof.plan.Target;
import cardproof.text.Nearest;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The directions of an {@code each}: which buses take which words. */
final class AxisReader {
  private static final int WIDEST = 64;
  private static final int WIDEST_ALL = 62;
  private static final List<String> WORDS = List.of("walking-ones", "walking-zeros", "all");
  private static final Pattern RANGE = Pattern.compile("([^.\\s]+)\\s*\\.\\.\\s*([^.\\s]+)");
  private static final String WANTED =
      "walking-ones, walking-zeros, all, a range such as 0..255, a list such as [0, 0xFFF], or"
          + " {random: 200, seed: 7}";

  private final PlanNames names;
  private final Problems problems;
  private final Numbers numbers;
  private final Texts texts;

  AxisReader(PlanNames names, Problems problems) {
    this.names = names;
    this.problems = problems;
    this.numbers = names.numbers();
    this.texts = new Texts(problems);
  }

  List<Axis> map(Node node, DrivenOnce once) {
    List<Axis> axes = new ArrayList<>();
    if (!(node instanceof Node.Mapping map) || map.entries().isEmpty()) {
      problems.error(
          node.at(),
          "'each' " + (node instanceof Node.Mapping ? "is empty" : "is " + node.described()),
          "buses with the words they go through, such as each: {A: walking-ones}",
          "");
      return axes;
    }
    for (Node.Entry entry : map.entries()) {
      axis(entry, once).ifPresent(axes::add);
    }
    return axes;
  }

  private Optional<Axis> axis(Node.Entry entry, DrivenOnce once) {
    List<Target> targets = new ArrayList<>();
    int width = 0;
    boolean known = true;
    Node.Text key = entry.key();
    Matcher name = Pattern.compile("\\S+").matcher(key.text());
    while (name.find()) {
      Node.Text one = new Node.Text(key.at(name.start()), name.group(), false, name.group(), false);
      Optional<Target> target = names.driven(one);
      known &= target.isPresent() && once.take(target.get(), one, "each");
      if (target.isPresent()) {
        targets.add(target.get());
        width += names.width(target.get());
      }
    }
    if (key.text().isBlank()) {
      problems.error(key.at(), "'each' has a key with no name in it", "the name of a bus", "");
      known = false;
    }
    if (width > WIDEST) {
      problems.error(
          key.at(),
          "together these buses are " + width + " bits wide",
          "at most " + WIDEST,
          "Give each a line of its own under 'each'");
      known = false;
    }
    Optional<Generator> words = generator(entry.value(), key.text(), known ? width : 0);
    return known ? words.map(generator -> new Axis(targets, generator)) : Optional.empty();
  }

  /**
   * @param width 0 where it is not known; the words are looked at all the same
   */
  private Optional<Generator> generator(Node node, String key, int width) {
    Optional<Node.Listing> set = names.setNames().list(node);
    if (set.isPresent() || node instanceof Node.Listing) {
      return list(set.orElseGet(() -> (Node.Listing) node), key, width);
    }
    if (node instanceof Node.Mapping) {
      return Fields.of(
              node,
              "what '" + key + "' goes through",
              List.of("random", "seed", "list", "range", "by"),
              problems)
          .flatMap(fields -> described(fields, key, width));
    }
    Optional<Node.Text> text = texts.text(node, key, WANTED);
    return text.flatMap(given -> word(given, key, width));
  }

  private Optional<Generator> word(Node.Text text, String key, int width) {
    String word = text.text().strip();
    switch (word) {
      case "walking-ones":
        return ifKnown(width, () -> Generators.walkingOnes(width));
      case "walking-zeros":
        return ifKnown(width, () -> Generators.walkingZeros(width));
      case "all":
        if (width > WIDEST_ALL) {
          problems.error(
              text.at(),
              "'all' of " + width + " bits would never end",
              "at most " + WIDEST_ALL + " bits",
              "Use {random: 200}, or walking-ones");
          return Optional.empty();
        }
        return ifKnown(width, () -> Generators.all(width));
      default:
        break;
    }
    if (RANGE.matcher(word).matches()) {
      return range(text, OptionalLong.of(1), key, width);
    }
    if (names.setNames().has(word) || !word.isEmpty() && Character.isDigit(word.charAt(0))) {
      OptionalLong single = element(text, key, width);
      return single.isPresent()
          ? Optional.of(Generators.list(List.of(single.getAsLong())))
          : Optional.empty();
    }
    problems.error(
        text.at(),
        "no patterns are called " + text.described(),
        WANTED,
        Nearest.to(word, WORDS)
            .map(near -> "Did you mean '" + near + "'?")
            .orElse(names.setNames().hint(word)));
    return Optional.empty();
  }

  private static Optional<Generator> ifKnown(
      int width, java.util.function.Supplier<Generator> generator) {
    return width == 0 ? Optional.empty() : Optional.of(generator.get());
  }

  private Optional<Generator> list(Node.Listing list, String key, int width) {
    if (list.items().isEmpty()) {
      problems.error(
          list.at(), "'" + key + "' goes through an empty list", "at least one number", "");
      return Optional.empty();
    }
    List<Long> words = new ArrayList<>();
    for (Node item : list.items()) {
      texts
          .text(item, key, "a number")
          .map(text -> element(text, key, width))
          .ifPresent(word -> word.ifPresent(words::add));
    }
    return words.size() == list.items().size()
        ? Optional.of(Generators.list(words))
        : Optional.empty();
  }

  private OptionalLong element(Node.Text text, String key, int width) {
    if (text.text().strip().equals(SettingReader.RELEASED)) {
      problems.error(
          text.at(),
          "'released' is no number to go through",
          "a number",
          "Make a step of its own with release: " + key);
      return OptionalLong.empty();
    }
    if (width > 0) {
      return numbers.word(text, width, "'" + key + "'");
    }
    return numbers
        .known(text, "")
        .map(l -> OptionalLong.of(l.value()))
        .orElse(OptionalLong.empty());
  }

  private Optional<Generator> described(Fields fields, String key, int width) {
    List<String> kinds = List.of("random", "list", "range").stream().filter(fields::has).toList();
    if (kinds.size() != 1) {
      problems.error(
          fields.at(),
          kinds.isEmpty()
              ? "nothing says which numbers '" + key + "' goes through"
              : "'" + String.join("' and '", kinds) + "' stand together",
          "one of random, list and range",
          "");
      return Optional.empty();
    }
    only(fields, "seed", "random", kinds.get(0));
    only(fields, "by", "range", kinds.get(0));
    Node value = fields.get(kinds.get(0)).orElseThrow();
    return switch (kinds.get(0)) {
      case "random" -> random(fields, value, width);
      case "list" ->
          names
              .setNames()
              .list(value)
              .or(() -> value instanceof Node.Listing list ? Optional.of(list) : Optional.empty())
              .map(list -> list(list, key, width))
              .orElseGet(() -> noList(value));
      default -> {
        OptionalLong by =
            fields
                .get("by")
                .map(node -> numbers.count(node, "by", 1, Long.MAX_VALUE))
                .orElse(OptionalLong.of(1));
        yield texts
            .text(value, "range", "two numbers such as 0..255")
            .flatMap(text -> range(text, by, key, width));
      }
    };
  }

  private void only(Fields fields, String key, String with, String kind) {
    if (fields.has(key) && !kind.equals(with)) {
      problems.error(
          fields.entry(key).orElseThrow().key().at(),
          "'" + key + "' has no meaning beside '" + kind + "'",
          "'" + key + "' together with '" + with + "' only",
          "");
    }
  }

  private Optional<Generator> noList(Node value) {
    problems.error(value.at(), value.saidOf("list"), "a list such as [0, 0x555, 0xAAA]", "");
    return Optional.empty();
  }

  private Optional<Generator> random(Fields fields, Node value, int width) {
    OptionalLong count = numbers.count(value, "random", 1, Long.MAX_VALUE);
    OptionalLong seed =
        fields
            .get("seed")
            .map(node -> numbers.count(node, "seed", 0, Long.MAX_VALUE))
            .orElse(OptionalLong.of(1));
    return count.isPresent() && seed.isPresent()
        ? ifKnown(width, () -> Generators.random(width, count.getAsLong(), seed.getAsLong()))
        : Optional.empty();
  }

  private Optional<Generator> range(Node.Text text, OptionalLong by, String key, int width) {
    Matcher ends = RANGE.matcher(text.text().strip());
    if (!ends.matches()) {
      problems.error(text.at(), text.saidOf("range"), "two numbers such as 0..255", "");
      return Optional.empty();
    }
    OptionalLong first = end(text, ends.group(1), key, width);
    OptionalLong last = end(text, ends.group(2), key, width);
    return first.isPresent() && last.isPresent() && by.isPresent()
        ? ifKnown(
            width, () -> Generators.range(first.getAsLong(), last.getAsLong(), by.getAsLong()))
        : Optional.empty();
  }

  private OptionalLong end(Node.Text range, String number, String key, int width) {
    Node.Text end = new Node.Text(range.at(), number, false, number, false);
    Optional<Literal> literal = numbers.known(end, "two numbers such as 0..255");
    if (literal.isEmpty()
        || width > 0 && !numbers.fits(end, literal.get(), width, "'" + key + "'")) {
      return OptionalLong.empty();
    }
    if (literal.get().value() < 0) {
      problems.error(
          range.at(), end.described() + " is too large for a range", "at most 2^63 - 1", "");
      return OptionalLong.empty();
    }
    return OptionalLong.of(literal.get().value());
  }
}
