package cardproof.files;

import cardproof.text.Position;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Puts the values of a call in place of {@code <name>} in a procedure's steps. */
final class Substitution {
  static final Pattern NAME = Pattern.compile("<(" + PlanWords.WORD + ")>");

  /** Arguments can hold arguments of the call before, so a text could grow without end. */
  private static final int LONGEST = 1000;

  private final Map<String, String> values;
  private final Budget budget;
  private final Problems problems;
  private final Set<Position> changedLines = new HashSet<>();

  Substitution(Map<String, String> values, Budget budget, Problems problems) {
    this.values = values;
    this.budget = budget;
    this.problems = problems;
  }

  /** Lines in which something was put in, by their first column. */
  Set<Position> changedLines() {
    return changedLines;
  }

  /** The same node with the values in it; cut short where the budget is spent. */
  Node in(Node node) {
    if (!budget.value()) {
      return node;
    }
    if (node instanceof Node.Listing list) {
      List<Node> items = new ArrayList<>(list.items().size());
      list.items().forEach(item -> items.add(in(item)));
      return new Node.Listing(list.at(), list.raw(), list.anchored(), items);
    }
    return node instanceof Node.Mapping map ? map(map) : text((Node.Text) node);
  }

  private Node.Mapping map(Node.Mapping map) {
    List<Node.Entry> entries = new ArrayList<>(map.entries().size());
    Map<String, Node.Text> seen = new HashMap<>();
    for (Node.Entry entry : map.entries()) {
      Node.Text key = text(entry.key());
      Node value = in(entry.value());
      if (seen.putIfAbsent(key.text(), key) == null) {
        entries.add(new Node.Entry(key, value, entry.alias()));
      } else {
        problems.error(
            key.at(),
            "with the arguments put in, key " + key.described() + " stands here a second time",
            "every key once",
            "");
      }
    }
    return new Node.Mapping(map.at(), map.raw(), map.anchored(), entries);
  }

  private Node.Text text(Node.Text text) {
    if (text.text().indexOf('<') < 0) {
      return text;
    }
    Matcher name = NAME.matcher(text.text());
    StringBuilder changed = new StringBuilder();
    int done = 0;
    while (name.find() && changed.length() <= LONGEST) {
      String value = values.get(name.group(1));
      if (value != null) {
        changed.append(text.text(), done, name.start()).append(value);
        done = name.end();
      }
    }
    if (done == 0) {
      return text;
    }
    changed.append(text.text(), done, text.text().length());
    changedLines.add(Problems.line(text.at()));
    if (changed.length() > LONGEST) {
      problems.error(
          text.at(),
          "with the arguments put in, this text has more than " + LONGEST + " characters",
          "at most " + LONGEST,
          "");
      budget.stop();
      return text;
    }
    return text.written(changed.toString());
  }
}
