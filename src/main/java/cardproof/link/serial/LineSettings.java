package cardproof.link.serial;

/**
 * How a port is opened; always 8 data bits, no parity, 1 stop bit, no flow control.
 *
 * @param baud bits per second
 * @param raiseDtr whether "terminal ready" is asserted. Common boards reset into their boot loader
 *     when it is; some with USB of their own send nothing until it is
 * @param raiseRts whether "request to send" is asserted; resets some boards too
 */
public record LineSettings(int baud, boolean raiseDtr, boolean raiseRts) {
  public LineSettings {
    if (baud < 1) {
      throw new IllegalArgumentException("a rate of " + baud + " baud");
    }
  }

  /** Both control lines low, so that opening does not reset the board. */
  public static LineSettings withoutReset(int baud) {
    return new LineSettings(baud, false, false);
  }

  /**
   * How many bytes to hand to the driver at once: an eighth of a second of line, at most 512. More
   * would sit in the kernel, where nothing can be taken back and a slow line looks like a stuck
   * one.
   */
  int pieceBytes() {
    int bitsPerByte = 10;
    return Math.max(1, Math.min(512, baud / bitsPerByte / 8));
  }
}
