package cardproof.cli;

import cardproof.log.LineName;

/** Both names of a logged line: what the card has printed beside it, and its bit. */
final class LineLabels {
  private LineLabels() {}

  /** Whether the card prints a label of its own there, which does not say the bit. */
  static boolean isPrinted(LineName line) {
    return !line.label().startsWith(line.bus() + "[") && !line.label().equals(line.bus());
  }

  /** {@code "bit 11 of S"} where a printed label does not say it, else empty. */
  static String place(LineName line) {
    return isPrinted(line) ? "bit " + line.bit() + " of " + line.bus() : "";
  }
}
