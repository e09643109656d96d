package cardproof.files;

import cardproof.card.Bus;
import cardproof.plan.Axis;
import cardproof.plan.Generator;
import cardproof.plan.Target;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** The directions of an {@code each}: which buses take which words. */
final class AxisReader {
  private static final Pattern NAME = Pattern.compile("\\S+");

  private final PlanNames names;
  private final Problems problems;
  private final WordsReader words;

  AxisReader(PlanNames names, Problems problems) {
    this.names = names;
    this.problems = problems;
    this.words = new WordsReader(names, problems);
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
    for (int i = 0; i < map.entries().size(); i++) {
      Node.Entry entry = map.entries().get(i);
      if (i + 1 < map.entries().size() && isBlank(entry)) {
        partedByComma(entry.key(), map.entries().get(i + 1).key());
      } else {
        axis(entry, once).ifPresent(axes::add);
      }
    }
    return axes;
  }

  private static boolean isBlank(Node.Entry entry) {
    return entry.value() instanceof Node.Text text && text.text().isBlank();
  }

  /** {@code {A, B: all}}, where {@code {A B: all}} was meant. */
  private void partedByComma(Node.Text key, Node.Text next) {
    problems.error(
        key.at(),
        key.described() + " has no value",
        "what it goes through, such as walking-ones",
        "For one word over both write "
            + QuoteHint.asKey(key.text() + " " + next.text())
            + ": with a blank between them");
  }

  private Optional<Axis> axis(Node.Entry entry, DrivenOnce once) {
    List<Target> targets = new ArrayList<>();
    int width = 0;
    boolean known = true;
    Node.Text key = entry.key();
    Matcher name = NAME.matcher(key.text());
    while (name.find()) {
      Node.Text one = new Node.Text(key.at(name.start()), name.group(), false, name.group(), false);
      if (isValueBehind(targets, one)) {
        return Optional.empty();
      }
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
    if (width > Bus.WIDEST) {
      problems.error(
          key.at(),
          "together these buses are " + width + " bits wide",
          "at most " + Bus.WIDEST,
          "Give each a line of its own under 'each'");
      known = false;
    }
    Optional<Generator> through = words.read(entry.value(), key.text(), known ? width : 0);
    return known ? through.map(generator -> new Axis(targets, generator)) : Optional.empty();
  }

  /** Whether a set name stands behind buses, as if it were one more; says what was meant by it. */
  private boolean isValueBehind(List<Target> buses, Node.Text name) {
    if (buses.isEmpty() || names.isBusOrLine(name) || !names.setNames().has(name.text())) {
      return false;
    }
    names.valueInKey(buses.stream().map(names::name).collect(Collectors.joining(" ")), name);
    return true;
  }
}
