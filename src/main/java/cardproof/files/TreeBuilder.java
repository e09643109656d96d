package cardproof.files;

import cardproof.text.Position;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.yaml.snakeyaml.DumperOptions.ScalarStyle;
import org.yaml.snakeyaml.nodes.MappingNode;
import org.yaml.snakeyaml.nodes.NodeTuple;
import org.yaml.snakeyaml.nodes.ScalarNode;
import org.yaml.snakeyaml.nodes.SequenceNode;

/**
 * Turns SnakeYAML's nodes into ours, and refuses the keys and aliases that these files do not use.
 */
final class TreeBuilder {
  private static final int MOST_VALUES = Screening.MOST_VALUES;

  private final SourceText source;
  private final Problems problems;
  private final Map<org.yaml.snakeyaml.nodes.Node, Node> built = new IdentityHashMap<>();
  private final Map<Node, Long> sizes = new IdentityHashMap<>();
  private final Set<org.yaml.snakeyaml.nodes.Node> open = new HashSet<>();
  private boolean circular;

  TreeBuilder(SourceText source, Problems problems) {
    this.source = source;
    this.problems = problems;
  }

  Optional<Node> build(org.yaml.snakeyaml.nodes.Node root) {
    Node tree = node(root);
    if (circular) {
      return Optional.empty();
    }
    if (size(tree) > MOST_VALUES) {
      problems.error(
          tree.at(),
          "with its aliases (*name) written out the file would hold more than 200,000 values",
          "",
          "Use 'repeat' or 'each' to say a thing many times");
      return Optional.empty();
    }
    return Optional.of(tree);
  }

  private Node node(org.yaml.snakeyaml.nodes.Node yaml) {
    Node known = built.get(yaml);
    if (known != null) {
      return known;
    }
    Position at = source.at(yaml.getStartMark());
    if (!open.add(yaml)) {
      circular = true;
      problems.error(
          at,
          "'" + yaml.getAnchor() + "' holds an alias of itself",
          "",
          "Write out what *" + yaml.getAnchor() + " should stand for");
      return new Node.Text(at, "", true, "", false);
    }
    String raw = source.between(yaml.getStartMark(), yaml.getEndMark()).stripTrailing();
    boolean anchored = yaml.getAnchor() != null;
    Node node;
    if (yaml instanceof ScalarNode scalar) {
      node = text(scalar, at, raw, anchored);
    } else if (yaml instanceof SequenceNode sequence) {
      List<Node> items = new ArrayList<>();
      sequence.getValue().forEach(item -> items.add(node(item)));
      node = new Node.Listing(at, raw, anchored, List.copyOf(items));
    } else {
      node = new Node.Mapping(at, raw, anchored, entries((MappingNode) yaml));
    }
    open.remove(yaml);
    built.put(yaml, node);
    return node;
  }

  private static Node.Text text(ScalarNode scalar, Position at, String raw, boolean anchored) {
    ScalarStyle style = scalar.getScalarStyle();
    boolean quoted = style == ScalarStyle.SINGLE_QUOTED || style == ScalarStyle.DOUBLE_QUOTED;
    return new Node.Text(at, raw, anchored, scalar.getValue(), quoted);
  }

  private List<Node.Entry> entries(MappingNode mapping) {
    List<Node.Entry> entries = new ArrayList<>();
    Map<String, Position> seen = new HashMap<>();
    for (NodeTuple tuple : mapping.getValue()) {
      // an anchor stands before its aliases, so a value from before its own key is an alias
      boolean alias =
          tuple.getValueNode().getStartMark().getIndex()
              < tuple.getKeyNode().getStartMark().getIndex();
      Node value = node(tuple.getValueNode());
      if (tuple.getKeyNode() instanceof ScalarNode
          && node(tuple.getKeyNode()) instanceof Node.Text key) {
        Node.Entry entry = whole(key, value, alias, tuple);
        if (accepts(entry.key(), seen)) {
          entries.add(entry);
        }
      } else {
        problems.error(
            source.at(tuple.getKeyNode().getStartMark()),
            "a map or a list stands where a key should",
            "a key, which is a plain name",
            "If this is an expression, " + "it must be quoted");
      }
    }
    return List.copyOf(entries);
  }

  /** The entry as it was meant, where a slip made a key of all of it. */
  private Node.Entry whole(Node.Text key, Node value, boolean alias, NodeTuple tuple) {
    Node.Entry written = new Node.Entry(key, value, alias);
    boolean keyOnly =
        !alias
            && value instanceof Node.Text text
            && !text.quoted()
            && text.text().isEmpty()
            && source
                .between(tuple.getKeyNode().getEndMark(), tuple.getValueNode().getStartMark())
                .isBlank();
    return keyOnly ? new JoinedEntry(problems).parted(key).orElse(written) : written;
  }

  private boolean accepts(Node.Text key, Map<String, Position> seen) {
    if (key.text().equals("<<") && !key.quoted()) {
      problems.error(
          key.at(),
          "'<<' would merge another map into this one, and these files do not use it",
          "every key written out",
          "An alias (*name) may stand for a whole value");
      return false;
    }
    Position first = seen.putIfAbsent(key.text(), key.at());
    if (first != null) {
      problems.error(
          key.at(),
          "key " + key.described() + " a second time; the first is in line " + first.line(),
          "every key once",
          "Delete one of them, or put both under one key");
    }
    return first == null;
  }

  /**
   * Nodes that a walk through the tree would meet, each alias counted with all that it stands for.
   */
  private long size(Node node) {
    Long known = sizes.get(node);
    if (known != null) {
      return known;
    }
    long size = 1;
    if (node instanceof Node.Listing list) {
      for (Node item : list.items()) {
        size = Math.min(MOST_VALUES + 1L, size + size(item));
      }
    } else if (node instanceof Node.Mapping map) {
      for (Node.Entry entry : map.entries()) {
        size = Math.min(MOST_VALUES + 1L, size + 1 + size(entry.value()));
      }
    }
    sizes.put(node, size);
    return size;
  }
}
