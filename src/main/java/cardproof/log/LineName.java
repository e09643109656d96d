package cardproof.log;

import java.util.Objects;

/**
 * One line of a card, as it was named when the run was made.
 *
 * @param line index over the whole card, from 0
 * @param bus name of the bus, or of the line itself
 * @param bit within the bus, 0 least significant
 * @param label as printed on the card
 * @param pin where it leaves the card, such as {@code J4.13}
 * @param driven whether the fixture could drive it
 * @param watched whether the fixture watched it
 */
public record LineName(
    int line, String bus, int bit, String label, String pin, boolean driven, boolean watched) {
  public LineName {
    Objects.requireNonNull(bus);
    Objects.requireNonNull(label);
    Objects.requireNonNull(pin);
    if (line < 0 || bit < 0) {
      throw new IllegalArgumentException("line " + line + ", bit " + bit);
    }
  }
}
