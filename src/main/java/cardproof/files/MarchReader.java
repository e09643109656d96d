package cardproof.files;

import cardproof.card.Bus;
import cardproof.card.Role;
import cardproof.plan.March;
import cardproof.plan.MarchRows;
import cardproof.plan.Memory;
import cardproof.plan.Row;
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
    this.numbers = new Numbers(problems);
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
    List<Integer> address = address(fields, once);
    OptionalInt data = driven(fields, "data", "data: D, the bus that takes a word", once);
    OptionalInt out = out(fields, data);
    OptionalInt write = line(fields, "write", "write: WR, the line that takes a word", once);
    OptionalInt read = line(fields, "read", "read: RD, the line that gives a word", once);
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
        new Memory(
            address,
            data.getAsInt(),
            out.getAsInt(),
            write.getAsInt(),
            read.getAsInt(),
            words.getAsInt());
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

  /** The buses of the address; empty where any of them is not known. */
  private List<Integer> address(Fields fields, DrivenOnce once) {
    Optional<Node.Text> text =
        fields
            .require("address", "address: AD, the bus that says which word")
            .flatMap(node -> texts.text(node, "address", "the name of a bus"));
    List<Integer> buses = new ArrayList<>();
    boolean known = text.isPresent();
    Matcher name = NAME.matcher(text.map(Node.Text::text).orElse(""));
    while (name.find()) {
      Node.Text one =
          new Node.Text(text.get().at(name.start()), name.group(), false, name.group(), false);
      OptionalInt bus = names.driven(one);
      known &= bus.isPresent() && once.take(bus.getAsInt(), one, "march");
      bus.ifPresent(buses::add);
    }
    return known ? List.copyOf(buses) : List.of();
  }

  private OptionalInt driven(Fields fields, String key, String example, DrivenOnce once) {
    Optional<Node.Text> text =
        fields.require(key, example).flatMap(node -> texts.text(node, key, "the name of a bus"));
    OptionalInt bus = text.isPresent() ? names.driven(text.get()) : OptionalInt.empty();
    return bus.isPresent() && once.take(bus.getAsInt(), text.get(), "march")
        ? bus
        : OptionalInt.empty();
  }

  private OptionalInt line(Fields fields, String key, String example, DrivenOnce once) {
    OptionalInt bus = driven(fields, key, example, once);
    if (bus.isPresent() && names.bus(bus.getAsInt()).width() != 1) {
      Bus found = names.bus(bus.getAsInt());
      problems.error(
          fields.get(key).orElseThrow().at(),
          Numbers.of(found) + " has " + found.width() + " lines",
          "one line that is pulsed",
          "");
      return OptionalInt.empty();
    }
    return bus;
  }

  private OptionalInt out(Fields fields, OptionalInt data) {
    Optional<Node> node = fields.get("out");
    if (node.isEmpty()) {
      if (data.isPresent() && names.bus(data.getAsInt()).role() != Role.SHARED) {
        problems.error(
            fields.get("data").orElseThrow().at(),
            "nothing comes back on the input '" + names.bus(data.getAsInt()).name() + "'",
            "a shared bus, or out: Q beside it, the bus on which words come back",
            "");
        return OptionalInt.empty();
      }
      return data;
    }
    Optional<Node.Text> text = texts.text(node.get(), "out", "the name of a bus");
    OptionalInt out = text.isPresent() ? names.watched(text.get()) : OptionalInt.empty();
    if (out.isPresent()
        && data.isPresent()
        && names.bus(out.getAsInt()).width() != names.bus(data.getAsInt()).width()) {
      problems.error(
          node.get().at(),
          Numbers.of(names.bus(out.getAsInt()))
              + " is "
              + names.bus(out.getAsInt()).width()
              + " bits wide, and "
              + Numbers.of(names.bus(data.getAsInt()))
              + " is "
              + names.bus(data.getAsInt()).width(),
          "words that come back as wide as they were written",
          "");
      return OptionalInt.empty();
    }
    return out;
  }

  private OptionalInt words(Fields fields, List<Integer> address) {
    int width = address.stream().mapToInt(bus -> names.bus(bus).width()).sum();
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

  private OptionalInt backgrounds(Fields fields, OptionalInt data) {
    int most =
        data.isPresent()
            ? MarchRows.standardBackgrounds(names.bus(data.getAsInt()).width())
            : Integer.MAX_VALUE;
    Optional<Node> node = fields.get("backgrounds");
    if (node.isEmpty()) {
      return OptionalInt.of(most);
    }
    OptionalLong count = numbers.count(node.get(), "backgrounds", 1, most);
    return count.isPresent() ? OptionalInt.of((int) count.getAsLong()) : OptionalInt.empty();
  }
}
