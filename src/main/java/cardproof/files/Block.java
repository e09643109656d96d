package cardproof.files;

import cardproof.text.Position;
import java.util.ArrayList;
import java.util.List;

/** Parts under a name, to be used more than once; its ports are known before its parts are read. */
final class Block {
  private final String name;
  private final Position at;
  private final List<Node.Text> ports;
  private final boolean portsKnown;
  private final List<PartEntry> entries = new ArrayList<>();

  /**
   * @param portsKnown whether these are all, or something was wrong with others
   */
  Block(String name, Position at, List<Node.Text> ports, boolean portsKnown) {
    this.portsKnown = portsKnown;
    this.name = name;
    this.at = at;
    this.ports = List.copyOf(ports);
  }

  String name() {
    return name;
  }

  Position at() {
    return at;
  }

  List<Node.Text> ports() {
    return ports;
  }

  boolean portsKnown() {
    return portsKnown;
  }

  List<String> portNames() {
    return ports.stream().map(port -> port.text().strip()).toList();
  }

  List<PartEntry> entries() {
    return entries;
  }

  void add(PartEntry entry) {
    entries.add(entry);
  }

  /** How many parts one use of it makes; never to be asked of a block that uses itself. */
  long parts() {
    long parts = 0;
    for (PartEntry entry : entries) {
      parts += entry.parts();
      if (parts < 0) {
        return Long.MAX_VALUE;
      }
    }
    return Math.max(1, parts);
  }

  /** The uses of blocks among its entries. */
  List<UseForm> uses() {
    return entries.stream()
        .map(PartEntry::form)
        .filter(UseForm.class::isInstance)
        .map(UseForm.class::cast)
        .toList();
  }
}
