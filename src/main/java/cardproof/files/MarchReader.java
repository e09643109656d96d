package cardproof.files;

import cardproof.card.Role;
import cardproof.plan.March;
import cardproof.plan.MarchRows;
import cardproof.plan.Memory;
import cardproof.plan.Row;
import cardproof.plan.Target;
import cardproof.text.Nearest;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A march through a memory: which test, and where the memory has its address, data and lines. */
final class MarchReader {
  static final List<String> KEYS =
      List.of("test", "address", "data", "out", "write", "read", "words", "backgrounds");
  private static final List<String> TESTS = March.ALL.stream().map(March::name).toList();
  private static final String OWNER = "the march";
  private static final int MOST_WORDS = 65_536;
  private static final int WIDEST_ADDRESS = 16;
  private static final Pattern NAME = Pattern.compile("\\S+");

  private final PlanNames names;
  private final Problems problems;
  private final Texts texts;
  private final Numbers numbers;

  MarchReader(PlanNames names, Problems problems) {
    this.names = names;
    this.problems = problems;
    this.texts = new Texts(problems);
    this.numbers = names.numbers();
  }

  /** What a step is called after that has no title. */
  static String testName(Node node) {
    return node instanceof Node.Mapping map
        ? map.entries().stream()
            .filter(entry -> entry.key().text().equals("test"))
            .map(entry -> entry.value() instanceof Node.Text text ? text.text() : "")
            .findFirst()
            .orElse("")
        : "";
  }

  List<Row> rows(Node node, DrivenOnce once) {
    return Fields.of(node, OWNER, KEYS, problems)
        .map(fields -> rows(fields, once))
        .orElse(List.of());
  }

  private List<Row> rows(Fields fields, DrivenOnce once) {
    Optional<March> test =
        fields.require("test", "a test, such as test: March C-").flatMap(this::test);
    List<Target> address = address(fields, once);
    Optional<Target> data = driven(fields, "data", "data: D, the bus that takes a word", once);
    Optional<Target> out = out(fields, data);
    Optional<Target> write = line(fields, "write", "write: WR, the line that takes a word", once);
    Optional<Target> read = line(fields, "read", "read: RD, the line that gives a word", once);
    OptionalInt words = words(fields, address);
    OptionalInt backgrounds = backgrounds(fields, data);
    if (test.isEmpty()
        || data.isEmpty()
        || out.isEmpty()
        || write.isEmpty()
        || read.isEmpty()
        || words.isEmpty()
        || backgrounds.isEmpty()) {
      return List.of();
    }
    Memory memory =
        new Memory(address, data.get(), out.get(), write.get(), read.get(), words.getAsInt());
    return new MarchRows(names.card().orElseThrow(), memory, test.get(), backgrounds.getAsInt());
  }

  private Optional<March> test(Node node) {
    Optional<Node.Text> text = texts.text(node, "test", "one of " + String.join(", ", TESTS));
    Optional<March> test = text.flatMap(name -> March.named(name.text().strip()));
    if (text.isPresent() && test.isEmpty()) {
      problems.error(
          node.at(),
          "no march test is called " + text.get().described(),
          "one of " + String.join(", ", TESTS),
          Nearest.to(text.get().text(), TESTS)
              .map(near -> "Did you mean '" + near + "'?")
              .orElse(""));
    }
    return test;
  }

  /** The buses and lines of the address; empty where any of them is not known. */
  private List<Target> address(Fields fields, DrivenOnce once) {
    Optional<Node.Text> text =
        fields
            .require("address", "address: AD, the bus that says which word")
            .flatMap(node -> texts.text(node, "address", "the name of a bus"));
    List<Target> targets = new ArrayList<>();
    boolean known = text.isPresent();
    Matcher name = NAME.matcher(text.map(Node.Text::text).orElse(""));
    while (name.find()) {
      Node.Text one =
          new Node.Text(text.get().at(name.start()), name.group(), false, name.group(), false);
      Optional<Target> target = names.driven(one);
      known &= target.isPresent() && once.take(target.get(), one, "march");
      target.ifPresent(targets::add);
    }
    return known ? List.copyOf(targets) : List.of();
  }

  private Optional<Target> driven(Fields fields, String key, String example, DrivenOnce once) {
    Optional<Node.Text> text =
        fields.require(key, example).flatMap(node -> texts.text(node, key, "the name of a bus"));
    return text.flatMap(names::driven).filter(target -> once.take(target, text.get(), "march"));
  }

  private Optional<Target> line(Fields fields, String key, String example, DrivenOnce once) {
    Optional<Target> target = driven(fields, key, example, once);
    if (target.isPresent() && names.width(target.get()) != 1) {
      problems.error(
          fields.get(key).orElseThrow().at(),
          names.of(target.get()) + " has " + names.width(target.get()) + " lines",
          "one line that is pulsed",
          "");
      return Optional.empty();
    }
    return target;
  }

  private Optional<Target> out(Fields fields, Optional<Target> data) {
    Optional<Node> node = fields.get("out");
    if (node.isEmpty()) {
      if (data.isPresent() && names.bus(data.get().busIndex()).role() != Role.SHARED) {
        problems.error(
            fields.get("data").orElseThrow().at(),
            "nothing comes back on the input '" + data.get().name(names.card().orElseThrow()) + "'",
            "a shared bus, or out: Q beside it, the bus on which words come back",
            "");
        return Optional.empty();
      }
      return data;
    }
    Optional<Node.Text> text = texts.text(node.get(), "out", "the name of a bus");
    Optional<Target> out = text.flatMap(names::watched);
    if (out.isPresent() && data.isPresent() && names.width(out.get()) != names.width(data.get())) {
      problems.error(
          node.get().at(),
          names.of(out.get())
              + " is "
              + names.width(out.get())
              + " bits wide, and "
              + names.of(data.get())
              + " is "
              + names.width(data.get()),
          "words that come back as wide as they were written",
          "");
      return Optional.empty();
    }
    return out;
  }

  private OptionalInt words(Fields fields, List<Target> address) {
    int width = address.stream().mapToInt(names::width).sum();
    int most = width == 0 || width >= WIDEST_ADDRESS ? MOST_WORDS : 1 << width;
    Optional<Node> node = fields.get("words");
    if (node.isPresent()) {
      OptionalLong words = numbers.count(node.get(), "words", 2, most);
      return words.isPresent() && width > 0
          ? OptionalInt.of((int) words.getAsLong())
          : OptionalInt.empty();
    }
    if (width > WIDEST_ADDRESS) {
      problems.error(
          fields.get("address").orElseThrow().at(),
          "an address of " + width + " bits reaches more words than a march goes through",
          "words: N beside it, at most " + MOST_WORDS,
          "");
    }
    return width > 0 && width <= WIDEST_ADDRESS ? OptionalInt.of(most) : OptionalInt.empty();
  }

  private OptionalInt backgrounds(Fields fields, Optional<Target> data) {
    int most =
        data.isPresent()
            ? MarchRows.standardBackgrounds(names.width(data.get()))
            : Integer.MAX_VALUE;
    Optional<Node> node = fields.get("backgrounds");
    if (node.isEmpty()) {
      return OptionalInt.of(most);
    }
    OptionalLong count = numbers.count(node.get(), "backgrounds", 1, most);
    return count.isPresent() ? OptionalInt.of((int) count.getAsLong()) : OptionalInt.empty();
  }
}
