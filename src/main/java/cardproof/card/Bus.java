package cardproof.card;

import cardproof.text.Position;
import java.util.List;

/**
 * An ordered group of lines, bit 0 least significant; a single line is a bus one wide.
 *
 * @param width 1 to 64
 * @param pins where each bit leaves the card, bit 0 first
 * @param labels what the card has printed beside each bit, bit 0 first; empty when nothing is
 *     printed
 * @param sharing of use for {@link Role#SHARED} only
 * @param rackMilliamps that each line has to carry in the rack; 0 where not stated
 */
public record Bus(
    String name,
    Role role,
    int width,
    List<Pin> pins,
    List<String> labels,
    Sharing sharing,
    long rackMilliamps,
    Position at) {
  /** A bus of which nothing is stated for the rack. */
  public Bus(
      String name,
      Role role,
      int width,
      List<Pin> pins,
      List<String> labels,
      Sharing sharing,
      Position at) {
    this(name, role, width, pins, labels, sharing, 0, at);
  }

  /** The most lines that a bus may have: as many as a word has bits. */
  public static final int WIDEST = 64;

  public Bus {
    pins = List.copyOf(pins);
    labels = List.copyOf(labels);
    if (pins.size() != width || !(labels.isEmpty() || labels.size() == width)) {
      throw new IllegalArgumentException("pins and labels go with the width of " + name);
    }
  }

  /** All bits set, of this width. */
  public long mask() {
    return -1L >>> (64 - width);
  }

  /** The line's own name: {@code S[3]}, or {@code CI} for a bus of one. */
  public String lineName(int bit) {
    return width == 1 ? name : name + "[" + bit + "]";
  }

  /** The printed label of a bit, or its line name where the card prints none. */
  public String label(int bit) {
    return labels.isEmpty() ? lineName(bit) : labels.get(bit);
  }

  /** Both names and the pin: {@code SB (bit 11 of S, J4.12)}. */
  public String describe(int bit) {
    String name = label(bit);
    String place = width == 1 || labels.isEmpty() ? "" : "bit " + bit + " of " + this.name + ", ";
    return name + " (" + place + pins.get(bit) + ")";
  }
}
