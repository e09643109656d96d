package cardproof.files;

import cardproof.card.Bus;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Warns of blocks that can be made as they are written, and were hardly meant so. */
final class BlockCheck {
  private final Set<String> lines;
  private final Set<String> everywhere;
  private final Problems problems;

  /**
   * @param everywhere nets that every block knows
   */
  BlockCheck(List<Bus> buses, Set<String> everywhere, Problems problems) {
    this.lines = buses.stream().map(Bus::name).collect(Collectors.toSet());
    this.everywhere = everywhere;
    this.problems = problems;
  }

  void warn(Collection<Block> blocks, List<PartEntry> entries) {
    Set<Block> used = new HashSet<>();
    Stream.concat(Stream.of(entries), blocks.stream().map(Block::entries))
        .flatMap(List::stream)
        .map(PartEntry::form)
        .filter(UseForm.class::isInstance)
        .forEach(form -> used.add(((UseForm) form).block()));
    for (Block block : blocks) {
      if (!used.contains(block)) {
        problems.warn(
            block.at(),
            "block '" + block.name() + "' is never used",
            "",
            "Take it out, or use it with - block: " + block.name());
      }
      ports(block);
    }
  }

  private void ports(Block block) {
    Set<String> bases = new HashSet<>();
    for (PartEntry entry : block.entries()) {
      for (IndexText net : entry.form().nets()) {
        bases.add(net.base());
        boolean known =
            block.portNames().contains(net.base())
                || everywhere.contains(net.base())
                || everywhere.contains(net.text().text().strip());
        if (!known && lines.contains(net.base())) {
          problems.warn(
              net.at(),
              net.text().described()
                  + " in block '"
                  + block.name()
                  + "' is a net of the block's own, and no line of the card",
              "",
              "Reach the line by a port, or name it under 'common'");
        }
      }
    }
    for (Node.Text port : block.ports()) {
      if (!bases.contains(port.text().strip())) {
        problems.warn(
            port.at(),
            "no part of block '" + block.name() + "' is on its port " + port.described(),
            "",
            "Take it out, or look for a slip in a name");
      }
    }
  }
}
