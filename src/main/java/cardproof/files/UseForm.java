package cardproof.files;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A use of a block.
 *
 * @param written where it names the block
 * @param ports nets by the names of the block's ports
 */
record UseForm(Node.Text written, Block block, Map<String, IndexText> ports) implements PartForm {
  @Override
  public long parts() {
    return block.parts();
  }

  @Override
  public List<IndexText> nets() {
    return List.copyOf(ports.values());
  }

  @Override
  public void make(Making making) {
    Map<String, Optional<String>> bound = new HashMap<>();
    ports.forEach((port, net) -> bound.put(port, bind(net, making)));
    Place inside = making.place().use(making.name(), bound, making.spot());
    block.entries().forEach(entry -> entry.spellOut(inside));
  }

  /** A port may also be a whole bus, of which the block then names the lines: {@code d[2]}. */
  private static Optional<String> bind(IndexText net, Making making) {
    try {
      Optional<String> name = making.place().netName(net, making.values());
      return name.filter(
          full ->
              making.place().assembly().lines().isBus(full)
                  || making.place().isNet(full, net, making.values()));
    } catch (IndexException without) {
      making.error(
          net.at(), net.text().described() + " " + without.getMessage(), "an index from 0 up", "");
      return Optional.empty();
    }
  }
}
