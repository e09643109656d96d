package cardproof.files;

import java.util.List;

/** What the references of a netlist are. */
final class KindsReader {
  static final List<String> KEYS = List.of("relay", "resistor", "lamp", "fuse");

  private KindsReader() {}
}
