package cardproof.files;

import cardproof.card.Bus;
import cardproof.text.Position;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Keeps a card's names apart: buses, states, and the labels printed on it. */
final class CardNames {
  static final int LONGEST_LABEL = 20;

  private record Label(String text, String ownLine, Position at) {}

  private final Problems problems;
  private final Map<String, Position> taken = new HashMap<>();
  private final List<Label> labels = new ArrayList<>();

  CardNames(Problems problems) {
    this.problems = problems;
  }

  /** Takes a name for a bus or a state; false, with a problem said, where it cannot be had. */
  boolean claim(Node.Text name, String kind) {
    if (!new Texts(problems).busName(name, kind)) {
      return false;
    }
    Position first = taken.putIfAbsent(name.text(), name.at());
    if (first != null) {
      problems.error(
          name.at(),
          "the name " + name.described() + " a second time; the first is in line " + first.line(),
          "a name of its own for every bus and state",
          "Rename one of them");
    }
    return first == null;
  }

  /** The labels of a bus, bit 0 first; none where they are not as many as the lines. */
  List<String> labels(Node node, String bus, int width) {
    if (!(node instanceof Node.Listing list)) {
      return new LabelMaker(bus, width, problems)
          .labels(node)
          .map(made -> noted(made, bus, node.at()))
          .orElse(List.of());
    }
    if (list.items().size() != width) {
      problems.error(
          node.at(),
          list.items().size() + " labels for the " + width + " lines of bus '" + bus + "'",
          "one for each line, bit 0 first",
          "");
      return List.of();
    }
    List<String> texts = new ArrayList<>();
    for (Node item : list.items()) {
      new Texts(problems)
          .text(item, "labels", "what is printed beside the line")
          .filter(this::printable)
          .ifPresent(
              text -> {
                String line = width == 1 ? bus : bus + "[" + texts.size() + "]";
                labels.add(new Label(text.text(), line, text.at()));
                texts.add(text.text());
              });
    }
    return texts.size() == width ? List.copyOf(texts) : List.of();
  }

  private List<String> noted(List<String> made, String bus, Position at) {
    for (int bit = 0; bit < made.size(); bit++) {
      String line = made.size() == 1 ? bus : bus + "[" + bit + "]";
      labels.add(new Label(made.get(bit), line, at));
    }
    return made;
  }

  private boolean printable(Node.Text text) {
    String label = text.text();
    boolean good =
        label.codePoints().noneMatch(Character::isISOControl)
            && label.codePointCount(0, label.length()) <= LONGEST_LABEL;
    if (!good) {
      problems.error(
          text.at(),
          "label " + text.described() + " is too long or has control characters in it",
          "at most " + LONGEST_LABEL + " printable characters",
          "");
    }
    return good;
  }

  /** To be called when all buses are known: a label must lead to one line only. */
  void checkLabels(List<Bus> buses) {
    Map<String, String> lines = new HashMap<>();
    for (Bus bus : buses) {
      lines.put(bus.name(), bus.width() == 1 ? bus.name() : "bus " + bus.name());
      for (int bit = 0; bit < bus.width(); bit++) {
        lines.put(bus.lineName(bit), bus.lineName(bit));
      }
    }
    Map<String, Label> seen = new HashMap<>();
    for (Label label : labels) {
      Label first = seen.putIfAbsent(label.text(), label);
      String line = lines.get(label.text());
      if (first != null) {
        problems.error(
            label.at(),
            "label '" + label.text() + "' a second time; the first is that of " + first.ownLine(),
            "labels that lead to one line only",
            "");
      } else if (line != null && !line.equals(label.ownLine())) {
        problems.error(
            label.at(),
            "label '" + label.text() + "' of " + label.ownLine() + " is also the name of " + line,
            "labels that lead to one line only",
            "");
      }
    }
  }
}
