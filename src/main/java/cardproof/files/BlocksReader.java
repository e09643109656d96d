package cardproof.files;

import cardproof.text.Position;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** {@code blocks:} of a wiring: first all names and ports, then the parts, which may use them. */
final class BlocksReader {
  static final List<String> KEYS = List.of("ports", "parts");
  private static final String PORTS = "the nets that a use connects, such as ports: [a, b, sum]";

  private record Open(Block block, Fields fields) {}

  private final Map<String, Block> blocks = new LinkedHashMap<>();
  private final List<Open> open = new ArrayList<>();
  private final Set<String> everywhere;
  private final Problems problems;

  /**
   * @param everywhere nets that every block knows, which no port may be called
   */
  BlocksReader(Set<String> everywhere, Problems problems) {
    this.everywhere = everywhere;
    this.problems = problems;
  }

  /** By name; filled by {@link #declare}, and their parts by {@link #readParts}. */
  Map<String, Block> blocks() {
    return blocks;
  }

  void declare(Node node) {
    if (!(node instanceof Node.Mapping map)) {
      problems.error(
          node.at(), node.saidOf("blocks"), "a map of blocks, each with 'ports' and 'parts'", "");
      return;
    }
    map.entries().forEach(this::declare);
  }

  private void declare(Node.Entry entry) {
    Node.Text name = entry.key();
    if (!IndexText.Use.PART.allows(name.text())) {
      problems.error(
          name.at(),
          name.described() + " cannot be the name of a block",
          "a letter, then letters, digits, '_' and '-', at most 40",
          "");
      return;
    }
    Optional<Fields> fields =
        Fields.of(entry.value(), "block '" + name.text() + "'", KEYS, problems);
    int before = problems.count();
    List<Node.Text> ports = fields.map(this::ports).orElse(List.of());
    boolean portsKnown = fields.isPresent() && problems.count() == before;
    Block block = new Block(name.text(), name.at(), ports, portsKnown);
    blocks.put(name.text(), block);
    fields.ifPresent(found -> open.add(new Open(block, found)));
  }

  private List<Node.Text> ports(Fields fields) {
    Optional<Node> node = fields.require("ports", PORTS);
    if (node.isEmpty() || node.get() instanceof Node.Listing list && list.items().isEmpty()) {
      return List.of();
    }
    List<Node.Text> good = new ArrayList<>();
    Map<String, Position> seen = new LinkedHashMap<>();
    for (Node.Text port : TextList.read(node.get(), "ports", PORTS, problems).orElse(List.of())) {
      String name = port.text().strip();
      if (!IndexText.Use.NET.allows(name)) {
        problems.error(
            port.at(),
            port.described() + " cannot be the name of a port",
            "letters, digits, '+', '-', '_' and '.', with no index",
            "Inside the block an index may follow, as in d[2] where d is a whole bus");
      } else if (everywhere.contains(name)) {
        problems.error(
            port.at(),
            "port " + port.described() + " is called like a net that every block knows",
            "a name of its own",
            "Leave it out of the ports; the block knows " + name + " already");
      } else if (seen.putIfAbsent(name, port.at()) != null) {
        problems.error(port.at(), "port " + port.described() + " twice", "every port once", "");
      } else {
        good.add(port);
      }
    }
    return good;
  }

  /** Reads the parts of all blocks. */
  void readParts(PartReader parts) {
    for (Open one : open) {
      one.fields()
          .require("parts", "parts: and the list of what the block is made of")
          .map(node -> parts.readAll(node, "block '" + one.block().name() + "'"))
          .ifPresent(entries -> entries.forEach(one.block()::add));
    }
  }
}
