package cardproof.files;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads {@code for: i = 0..11} and {@code for: {w: 0..7, i: 0..11}}. */
final class RepeatReader {
  private static final String EXAMPLE = "i = 0..11, or {w: 0..7, i: 0..11} for one inside another";
  private static final String RANGE = "two numbers such as 0..11";
  private static final Pattern TEXT = Pattern.compile("\\s*([^=]*?)\\s*=\\s*(.*?)\\s*");
  private static final Pattern NUMBERS =
      Pattern.compile("\\s*(\\d{1,9})\\s*\\.\\.\\s*(\\d{1,9})\\s*");
  private static final String NAME = "[A-Za-z_][A-Za-z0-9_]{0,39}";
  private static final int MOST_LOOPS = 8;

  private final Problems problems;

  RepeatReader(Problems problems) {
    this.problems = problems;
  }

  /** Empty, with problems said, where it makes no sense. */
  Optional<Repeat> read(Optional<Node> node) {
    if (node.isEmpty()) {
      return Optional.of(Repeat.ONCE);
    }
    if (node.get() instanceof Node.Mapping map) {
      return nested(map);
    }
    Optional<Node.Text> text = new Texts(problems).text(node.get(), "for", EXAMPLE);
    if (text.isEmpty()) {
      return Optional.empty();
    }
    Matcher form = TEXT.matcher(text.get().text());
    if (!form.matches()) {
      problems.error(text.get().at(), text.get().saidOf("for"), EXAMPLE, "");
      return Optional.empty();
    }
    return loop(text.get(), form.group(1), form.group(2)).map(loop -> new Repeat(List.of(loop)));
  }

  private Optional<Repeat> nested(Node.Mapping map) {
    if (map.entries().isEmpty() || map.entries().size() > MOST_LOOPS) {
      problems.error(
          map.at(),
          "'for' has " + map.entries().size() + " names",
          "from 1 to " + MOST_LOOPS + " of them, as in for: {w: 0..7, i: 0..11}",
          "");
      return Optional.empty();
    }
    List<Repeat.Loop> loops = new ArrayList<>();
    for (Node.Entry entry : map.entries()) {
      new Texts(problems)
          .text(entry.value(), entry.key().text(), RANGE)
          .flatMap(text -> named(entry.key(), text))
          .ifPresent(loops::add);
    }
    return loops.size() == map.entries().size()
        ? Optional.of(new Repeat(List.copyOf(loops)))
        : Optional.empty();
  }

  private Optional<Repeat.Loop> named(Node.Text key, Node.Text range) {
    return name(key, key.text()) ? range(range, key.text(), range.text()) : Optional.empty();
  }

  private Optional<Repeat.Loop> loop(Node.Text text, String name, String range) {
    return name(text, name) ? range(text, name, range) : Optional.empty();
  }

  private boolean name(Node.Text at, String name) {
    boolean good = name.matches(NAME);
    if (!good) {
      problems.error(
          at.at(),
          Node.Text.quote(name) + " cannot be the name of a repeat",
          "letters, digits and '_', the first one no digit",
          "Write for: " + EXAMPLE);
    }
    return good;
  }

  private Optional<Repeat.Loop> range(Node.Text at, String name, String range) {
    Matcher numbers = NUMBERS.matcher(range);
    if (!numbers.matches()) {
      problems.error(
          at.at(),
          "'" + name + "' runs over " + Node.Text.quote(range),
          RANGE + ", none of more than nine digits",
          "");
      return Optional.empty();
    }
    long from = Long.parseLong(numbers.group(1));
    long to = Long.parseLong(numbers.group(2));
    if (to < from) {
      problems.error(
          at.at(),
          "'" + name + "' runs over nothing, since " + to + " is less than " + from,
          "the smaller number first",
          "Write " + to + ".." + from + ", or take the entry out");
      return Optional.empty();
    }
    return Optional.of(new Repeat.Loop(name, from, to));
  }
}
