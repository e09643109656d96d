package cardproof.files;

import cardproof.text.Nearest;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** A use of a block among the entries of {@code parts}. */
final class UseReader {
  private final Map<String, Block> blocks;
  private final Problems problems;
  private final NetReader nets;

  UseReader(Map<String, Block> blocks, Problems problems) {
    this.blocks = blocks;
    this.problems = problems;
    this.nets = new NetReader(problems);
  }

  Optional<PartForm> read(Fields fields, List<String> repeats) {
    Optional<Node.Text> written =
        fields
            .get("block")
            .flatMap(node -> new Texts(problems).text(node, "block", "the name of a block"));
    Optional<Block> block = written.flatMap(this::block);
    if (block.isEmpty()) {
      return Optional.empty();
    }
    if (!block.get().portsKnown()) {
      return Optional.empty();
    }
    Optional<Map<String, IndexText>> ports = ports(fields, block.get(), repeats);
    return ports.map(bound -> new UseForm(written.get(), block.get(), bound));
  }

  private Optional<Block> block(Node.Text name) {
    Block block = blocks.get(name.text().strip());
    if (block == null) {
      problems.error(
          name.at(),
          "there is no block " + name.described(),
          blocks.isEmpty() ? "'blocks' under 'wiring', which describes it" : "one of the blocks",
          Nearest.hint(name.text().strip(), blocks.keySet().stream().sorted().toList()));
    }
    return Optional.ofNullable(block);
  }

  private Optional<Map<String, IndexText>> ports(Fields fields, Block block, List<String> repeats) {
    List<String> known = block.portNames();
    if (!fields.has("ports")) {
      if (!known.isEmpty()) {
        missing(fields, block, known);
      }
      return known.isEmpty() ? Optional.of(Map.of()) : Optional.empty();
    }
    Node node = fields.get("ports").orElseThrow();
    if (!(node instanceof Node.Mapping map)) {
      problems.error(
          node.at(),
          node.saidOf("ports"),
          "a map from the ports of the block to nets, such as a: A[i]",
          "Ports of '" + block.name() + "': " + String.join(", ", known));
      return Optional.empty();
    }
    Map<String, IndexText> bound = new LinkedHashMap<>();
    boolean good = true;
    for (Node.Entry entry : map.entries()) {
      String port = entry.key().text().strip();
      Optional<IndexText> net = nets.net(entry.value(), port, repeats);
      if (!known.contains(port)) {
        problems.error(
            entry.key().at(),
            "block '" + block.name() + "' has no port " + entry.key().described(),
            known.isEmpty()
                ? "no ports, since it has none"
                : "its ports " + String.join(", ", known),
            Nearest.to(port, known).map(near -> "Did you mean '" + near + "'?").orElse(""));
        good = false;
      }
      good &= net.isPresent();
      // a port of which the net is wrong is not missing as well
      bound.put(port, net.orElse(null));
    }
    List<String> open = known.stream().filter(port -> !bound.containsKey(port)).toList();
    if (!open.isEmpty()) {
      missing(fields, block, open);
    }
    return good && open.isEmpty() ? Optional.of(bound) : Optional.empty();
  }

  private void missing(Fields fields, Block block, List<String> open) {
    problems.error(
        fields.entry("ports").map(entry -> entry.key().at()).orElse(fields.at()),
        "this use of block '"
            + block.name()
            + "' says nothing of its "
            + (open.size() == 1 ? "port " : "ports ")
            + String.join(", ", open),
        "a net for every port, such as " + open.get(0) + ": A[0]",
        "For a port that leads nowhere name a net that nothing else is on");
  }
}
