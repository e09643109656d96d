package cardproof.files;

import cardproof.bits.Literal;
import cardproof.plan.Generator;
import cardproof.plan.Generators;
import cardproof.text.Nearest;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** The words that buses go through: numbers, ranges, lists, and those that have a name. */
final class WordsReader {
  private static final Pattern RANGE = Pattern.compile("([^.\\s]+)\\s*\\.\\.\\s*([^.\\s]+)");
  private static final List<String> NUMBERED = List.of("random", "list", "range");
  private static final List<String> KINDS =
      Stream.concat(NUMBERED.stream(), NamedWords.WITH_VALUE.stream()).toList();
  static final List<String> KEYS =
      Stream.concat(
              Stream.of("random", "seed", "list", "range", "by"), NamedWords.WITH_VALUE.stream())
          .toList();
  private static final String WANTED =
      String.join(", ", NamedWords.NAMES)
          + ", a range such as 0..255, a list such as [0, 0xFFF], or {random: 200, seed: 7}";

  private final Problems problems;
  private final Numbers numbers;
  private final Texts texts;
  private final NamedWords named;

  WordsReader(Problems problems) {
    this.problems = problems;
    this.numbers = new Numbers(problems);
    this.texts = new Texts(problems);
    this.named = new NamedWords(problems);
  }

  /**
   * @param key for whom they are, as written
   * @param width 0 where it is not known; the words are looked at all the same
   */
  Optional<Generator> read(Node node, String key, int width) {
    if (node instanceof Node.Listing list) {
      return list(list, key, width);
    }
    if (node instanceof Node.Mapping) {
      return Fields.of(node, "what '" + key + "' goes through", KEYS, problems)
          .flatMap(fields -> described(fields, key, width));
    }
    Optional<Node.Text> text = texts.text(node, key, WANTED);
    return text.flatMap(given -> word(given, key, width));
  }

  private Optional<Generator> word(Node.Text text, String key, int width) {
    String word = text.text().strip();
    if (NamedWords.NAMES.contains(word)) {
      return named.bare(word, text.at(), width);
    }
    if (RANGE.matcher(word).matches()) {
      return range(text, OptionalLong.of(1), key, width);
    }
    if (!word.isEmpty() && Character.isDigit(word.charAt(0))) {
      OptionalLong single = element(text, key, width);
      return single.isPresent()
          ? Optional.of(Generators.list(List.of(single.getAsLong())))
          : Optional.empty();
    }
    problems.error(
        text.at(),
        "no patterns are called " + text.described(),
        WANTED,
        Nearest.to(word, NamedWords.NAMES).map(near -> "Did you mean '" + near + "'?").orElse(""));
    return Optional.empty();
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
    List<String> kinds = KINDS.stream().filter(fields::has).toList();
    if (kinds.size() != 1) {
      problems.error(
          fields.at(),
          kinds.isEmpty()
              ? "nothing says which numbers '" + key + "' goes through"
              : "'" + String.join("' and '", kinds) + "' stand together",
          "one of " + String.join(", ", KINDS),
          "");
      return Optional.empty();
    }
    only(fields, "seed", "random", kinds.get(0));
    only(fields, "by", "range", kinds.get(0));
    Node value = fields.get(kinds.get(0)).orElseThrow();
    return switch (kinds.get(0)) {
      case "random" -> random(fields, value, width);
      case "list" -> value instanceof Node.Listing list ? list(list, key, width) : noList(value);
      case "range" -> {
        OptionalLong by =
            fields
                .get("by")
                .map(node -> numbers.count(node, "by", 1, Long.MAX_VALUE))
                .orElse(OptionalLong.of(1));
        yield texts
            .text(value, "range", "two numbers such as 0..255")
            .flatMap(text -> range(text, by, key, width));
      }
      default -> named.with(kinds.get(0), value, key, width);
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
        ? NamedWords.ifKnown(
            width, () -> Generators.random(width, count.getAsLong(), seed.getAsLong()))
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
        ? NamedWords.ifKnown(
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
