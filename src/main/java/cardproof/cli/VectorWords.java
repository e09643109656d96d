package cardproof.cli;

import cardproof.bits.BitRange;
import cardproof.bits.WordText;
import cardproof.card.Bus;
import cardproof.plan.Vector;
import java.util.ArrayList;
import java.util.List;

/** How one bus of a vector is written; independent of any locale. */
final class VectorWords {
  private static final String RELEASED = "released";

  private VectorWords() {}

  /** What a bus is driven to; single lines that are let go of are {@code z}. */
  static String driven(Vector vector, int b) {
    Bus bus = vector.card().buses().get(b);
    long released = bus.mask() & ~vector.enabled()[b];
    if (released == bus.mask()) {
      return RELEASED;
    }
    String text = WordText.of(vector.level()[b] & ~released, released, bus.width());
    return released == 0 ? text : text.substring(0, 2) + text.substring(2).replace('x', 'z');
  }

  /** What a bus must come to; bits that are not judged are {@code x}. */
  static String expected(Vector vector, int b) {
    Bus bus = vector.card().buses().get(b);
    return WordText.of(vector.expect()[b], bus.mask() & ~vector.care()[b], bus.width());
  }

  /** Lines that must hold still: {@code S[11:8]}, {@code CO}. */
  static List<String> still(Vector vector) {
    List<String> lines = new ArrayList<>();
    for (int b = 0; b < vector.still().length; b++) {
      Bus bus = vector.card().buses().get(b);
      BitRange.of(vector.still()[b]).forEach(range -> lines.add(range.of(bus.name(), bus.width())));
    }
    return lines;
  }
}
