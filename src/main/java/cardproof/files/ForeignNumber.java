package cardproof.files;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Numbers as other trades write them: {@code b0010}, {@code 1Fh}, {@code $1F}, {@code 12'hA5}. */
final class ForeignNumber {
  private static final Pattern BINARY =
      Pattern.compile("(?:\\d*'b|[bB%]|0B)([01xX_]+)|([01xX_]+)[bB]");

  private static final Pattern HEXADECIMAL =
      Pattern.compile("(?:\\d*'h|[xXhH$#]|0X|0h|&[hH])([0-9a-fA-F_]+)|([0-9][0-9a-fA-F_]*)[hH]");

  private ForeignNumber() {}

  /** What to do about a text that is no number, where there may be better advice. */
  static String next(String text, String better) {
    return better.isEmpty() ? meant(text).map(written -> "Write " + written).orElse("") : better;
  }

  /** The same as it is written here; empty where it is no such number. */
  static Optional<String> meant(String text) {
    Matcher binary = BINARY.matcher(text);
    if (binary.matches()) {
      return Optional.of("0b" + digits(binary));
    }
    Matcher hexadecimal = HEXADECIMAL.matcher(text);
    return hexadecimal.matches() ? Optional.of("0x" + digits(hexadecimal)) : Optional.empty();
  }

  private static String digits(Matcher number) {
    return number.group(1) == null ? number.group(2) : number.group(1);
  }
}
