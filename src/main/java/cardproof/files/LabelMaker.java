package cardproof.files;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.IntFunction;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;

/** Labels that follow a rule, so that nobody has to write them out. */
final class LabelMaker {
  static final List<String> KEYS = List.of("from", "reversed", "prefix");

  private static final Pattern FROM = Pattern.compile("from\\s+(\\d{1,6})");
  private static final long MOST = 1_000_000;
  private static final String WANTED =
      "a list such as [S0, S1], bit 0 first, or hex, or from 1, or {from: 1, reversed: true,"
          + " prefix: S}";

  private final String bus;
  private final int width;
  private final Problems problems;

  LabelMaker(String bus, int width, Problems problems) {
    this.bus = bus;
    this.width = width;
    this.problems = problems;
  }

  /** One for each line, bit 0 first; empty, with a problem said, where the rule is none. */
  Optional<List<String>> labels(Node node) {
    if (node instanceof Node.Mapping) {
      return Fields.of(node, "the labels", KEYS, problems).flatMap(this::numbered);
    }
    String rule = node instanceof Node.Text text ? text.text().strip() : "";
    Matcher from = FROM.matcher(rule);
    if (from.matches()) {
      int first = Integer.parseInt(from.group(1));
      return Optional.of(made(bit -> bus + (first + bit)));
    }
    if (rule.equals("hex")) {
      return Optional.of(made(bit -> bus + Integer.toHexString(bit).toUpperCase(Locale.ROOT)));
    }
    problems.error(node.at(), node.saidOf("labels"), WANTED, "");
    return Optional.empty();
  }

  private Optional<List<String>> numbered(Fields fields) {
    OptionalLong from =
        fields
            .require("from", "from: 1, the least number printed")
            .map(node -> new Numbers(problems).count(node, "from", 0, MOST))
            .orElse(OptionalLong.empty());
    boolean reversed = fields.get("reversed").map(this::reversed).orElse(false);
    String prefix =
        fields
            .get("prefix")
            .flatMap(node -> new Texts(problems).text(node, "prefix", "letters, such as S"))
            .filter(this::shortEnough)
            .map(Node.Text::text)
            .orElse(bus);
    if (from.isEmpty()) {
      return Optional.empty();
    }
    long first = from.getAsLong();
    return Optional.of(made(bit -> prefix + (first + (reversed ? width - 1 - bit : bit))));
  }

  private List<String> made(IntFunction<String> label) {
    return IntStream.range(0, width).mapToObj(label).toList();
  }

  private boolean reversed(Node node) {
    String word = node instanceof Node.Text text ? text.text().strip() : "";
    if (!word.equals("true") && !word.equals("false")) {
      problems.error(
          node.at(),
          node.saidOf("reversed"),
          "true where bit 0 has the greatest number, or false",
          "");
    }
    return word.equals("true");
  }

  private boolean shortEnough(Node.Text prefix) {
    int most = CardNames.LONGEST_LABEL / 2;
    boolean good = prefix.text().length() <= most && prefix.text().matches("\\P{Cntrl}*");
    if (!good) {
      problems.error(
          prefix.at(),
          "prefix " + prefix.described() + " is too long or has control characters in it",
          "at most " + most + " printable characters",
          "");
    }
    return good;
  }
}
