package cardproof.text;

import java.math.BigDecimal;
import java.util.Locale;

/** How times are written: {@code 850 us}, {@code 63.2 ms}, {@code 1.50 s}. */
public final class Micros {
  private Micros() {}

  public static String text(long us) {
    if (us < 1_000) {
      return us + " us";
    }
    if (us < 1_000_000) {
      return millis(us) + " ms";
    }
    return String.format(Locale.ROOT, "%.2f s", us / 1e6);
  }

  /** A time that may lie before another, with its sign and no digit lost: {@code -12.05 ms}. */
  public static String signed(long us) {
    return BigDecimal.valueOf(us, 3).stripTrailingZeros().toPlainString() + " ms";
  }

  /** Milliseconds with one decimal, no unit. */
  public static String millis(long us) {
    return String.format(Locale.ROOT, "%.1f", us / 1e3);
  }
}
