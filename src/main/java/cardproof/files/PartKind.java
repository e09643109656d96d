package cardproof.files;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

/** What an entry of {@code parts} can be, told by the key that gives its name. */
enum PartKind {
  RELAY("type", "coil", "flyback", "socket", "poles"),
  DIODE("anode", "cathode"),
  RESISTOR("ends", "ohms"),
  LAMP("ends", "rating"),
  FUSE("ends", "rating"),
  WIRE("ends"),
  BLOCK("named", "ports");

  private final List<String> own;

  PartKind(String... own) {
    this.own = List.of(own);
  }

  String key() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** All keys that such an entry may have. */
  List<String> keys() {
    return Stream.of(Stream.of(key()), own.stream(), Stream.of("at", "for"))
        .flatMap(keys -> keys)
        .toList();
  }

  static List<String> allKeys() {
    return Arrays.stream(values()).map(PartKind::key).toList();
  }
}
