package cardproof.cli;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** A time with its unit as on the command line: {@code 25ms}, {@code '1.5 s'}, {@code '800 us'}. */
final class TimeOption implements ITypeConverter<TimeOption.Us> {
  private static final Pattern FORM = Pattern.compile("([0-9]{1,9}(?:\\.[0-9]{1,6})?) ?(us|ms|s)");
  private static final long MOST_US = 3_600_000_000L;

  /** Microseconds. */
  record Us(long value) {}

  @Override
  public Us convert(String text) {
    Matcher matcher = FORM.matcher(text.strip());
    if (matcher.matches()) {
      BigDecimal number = new BigDecimal(matcher.group(1));
      BigDecimal us =
          switch (matcher.group(2)) {
            case "s" -> number.movePointRight(6);
            case "ms" -> number.movePointRight(3);
            default -> number;
          };
      long value = us.setScale(0, RoundingMode.HALF_UP).longValueExact();
      if (value <= MOST_US) {
        return new Us(value);
      }
    }
    throw new TypeConversionException(
        "'" + text + "' is no time; wanted a number and us, ms or s, as 25ms, at most an hour");
  }
}
