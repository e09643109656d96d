package cardproof.files;

import cardproof.text.Position;
import java.util.HashMap;
import java.util.Map;
import org.yaml.snakeyaml.events.AliasEvent;
import org.yaml.snakeyaml.events.CollectionEndEvent;
import org.yaml.snakeyaml.events.CollectionStartEvent;
import org.yaml.snakeyaml.events.DocumentStartEvent;
import org.yaml.snakeyaml.events.Event;
import org.yaml.snakeyaml.events.NodeEvent;
import org.yaml.snakeyaml.events.ScalarEvent;

/**
 * Looks through a file's events before any tree is built of it, for what these files do not use and
 * for what would cost too much.
 */
final class Screening {
  static final int DEEPEST = 40;
  static final int MOST_ALIASES = 50;
  static final int MOST_VALUES = 200_000;

  private final SourceText source;
  private final Problems problems;
  private final Map<String, Position> anchors = new HashMap<>();
  private Position reached;
  private int depth;
  private int aliases;
  private int values;
  private int documents;

  Screening(SourceText source, Problems problems) {
    this.source = source;
    this.problems = problems;
    this.reached = new Position(source.name(), 1, 1);
  }

  /** Where the last event began that was looked at. */
  Position reached() {
    return reached;
  }

  /** Takes the next event; false where no tree must be built of the file. */
  boolean takes(Event event) {
    Position at = source.at(event.getStartMark());
    reached = at;
    if (event instanceof DocumentStartEvent && ++documents > 1) {
      return refuse(
          at,
          "a second document starts here",
          "one document in a file",
          "Give it a file of its own, or delete the line '---'");
    }
    if (event instanceof CollectionEndEvent) {
      depth--;
    }
    if (event instanceof CollectionStartEvent && ++depth > DEEPEST) {
      return refuse(
          at, "maps and lists are nested more than " + DEEPEST + " deep", "", "Flatten the file");
    }
    if (event instanceof AliasEvent && ++aliases > MOST_ALIASES) {
      return refuse(
          at,
          "more than " + MOST_ALIASES + " aliases (*name) in one file",
          "",
          "Use 'repeat' or 'each' to say a thing many times");
    }
    if (event instanceof NodeEvent node) {
      anchor(node, at);
      tag(node, at);
      if (++values > MOST_VALUES) {
        return refuse(
            at,
            "the file holds more than 200,000 keys and values",
            "",
            "Let 'each' make the patterns, or divide the plan over several files");
      }
    }
    return true;
  }

  private void anchor(NodeEvent node, Position at) {
    if (node instanceof AliasEvent || node.getAnchor() == null) {
      return;
    }
    Position first = anchors.putIfAbsent(node.getAnchor(), at);
    if (first != null) {
      problems.error(
          at,
          "anchor '&" + node.getAnchor() + "' a second time; the first is in line " + first.line(),
          "every anchor once",
          "Give this one another name");
    }
  }

  private void tag(NodeEvent node, Position at) {
    String tag = tagOf(node);
    if (tag != null) {
      String hint = QuoteHint.forLine(source.line(node.getStartMark()));
      problems.error(at, "'!' begins a YAML tag here, and these files use none", "", hint);
      problems.silence(at);
    }
  }

  private static String tagOf(NodeEvent node) {
    if (node instanceof ScalarEvent scalar) {
      return scalar.getTag();
    }
    return node instanceof CollectionStartEvent start ? start.getTag() : null;
  }

  private boolean refuse(Position at, String found, String wanted, String next) {
    problems.error(at, found, wanted, next);
    return false;
  }
}
