package cardproof.card.fault;

import java.math.BigDecimal;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalLong;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Lengths of time in the names of faults: {@code 800 us}, {@code 12.5 ms}, {@code 2 s}. */
final class Spans {
  private static final Pattern FORM =
      Pattern.compile("(\\d{1,12}(?:\\.\\d{1,6})?) ?(us|ms|s)", Pattern.CASE_INSENSITIVE);
  private static final Map<String, Long> UNITS = Map.of("us", 1L, "ms", 1_000L, "s", 1_000_000L);

  private Spans() {}

  /** Microseconds; empty where the text is no whole number of them in one of the units. */
  static OptionalLong read(String text) {
    // the micro sign and the Greek letter both stand for u
    Matcher form = FORM.matcher(text.strip().replace('\u00B5', 'u').replace('\u03BC', 'u'));
    if (!form.matches()) {
      return OptionalLong.empty();
    }
    long unit = UNITS.get(form.group(2).toLowerCase(Locale.ROOT));
    BigDecimal us = new BigDecimal(form.group(1)).multiply(BigDecimal.valueOf(unit));
    return us.stripTrailingZeros().scale() > 0
        ? OptionalLong.empty()
        : OptionalLong.of(us.longValueExact());
  }

  /** In the largest unit of which there is a whole one. */
  static String text(long us) {
    String unit = us >= 1_000_000 ? "s" : us >= 1_000 ? "ms" : "us";
    return BigDecimal.valueOf(us)
            .divide(BigDecimal.valueOf(UNITS.get(unit)))
            .stripTrailingZeros()
            .toPlainString()
        + " "
        + unit;
  }
}
