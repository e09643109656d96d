package cardproof.bits;

/**
 * A number as written: {@code 12}, {@code 0x1F}, {@code 0b1010_xx01}, {@code 0o17}.
 *
 * <p>An underscore may stand between two digits. In the forms with a prefix a digit x stands for
 * unknown (or do-not-care) bits. Prefixes and digits may be in either case.
 *
 * @param value the bits, 0 where unknown; unsigned
 * @param unknown a 1 for each bit written as x
 * @param width 1 to 64 bits: with a prefix as wide as written (digits times bits per digit), in
 *     decimal as wide as the value needs, 1 for zero
 */
public record Literal(long value, long unknown, int width) {
  /** Checks that both planes fit the width and do not overlap. */
  public Literal {
    if (width < 1 || width > Words.MAX_WIDTH) {
      throw new IllegalArgumentException("A literal has 1 to 64 bits, not " + width);
    }
    if (((value | unknown) & ~Words.mask(width)) != 0 || (value & unknown) != 0) {
      throw new IllegalArgumentException(
          "Value and unknown bits overlap or do not fit " + width + " bits");
    }
  }

  /**
   * Reads a number.
   *
   * @throws LiteralException when the text is not one
   */
  public static Literal parse(String text) {
    return new LiteralReader(text).read();
  }
}
