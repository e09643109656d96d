package cardproof.report;

import java.util.Locale;

/** The kinds of variable that are written, of those that IEEE 1364-2005 syntax 18-5 allows. */
public enum VcdKind {
  /** A net: something that is driven all the time. */
  WIRE,
  /** Something that keeps what was last put into it. */
  REG,
  /** A number of 32 bits. */
  INTEGER,
  /** A number with a fraction; has no unknown value. */
  REAL;

  static final int INTEGER_BITS = 32;
  static final int REAL_BITS = 64;

  String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
