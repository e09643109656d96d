package cardproof.bits;

import java.util.Locale;

/** Reads one number; see {@link Literal} for the forms. */
final class LiteralReader {
  private static final String FORMS = "a number such as 12, 0x1F, 0b1010_xx01 or 0o17";

  private final String text;

  LiteralReader(String text) {
    this.text = text;
  }

  Literal read() {
    if (text.isEmpty()) {
      throw refuse("it is empty", FORMS, "");
    }
    if (text.startsWith("-")) {
      throw refuse("it is negative", FORMS, "Words are unsigned: write the bits, such as 0xFFF");
    }
    if (text.indexOf('\'') >= 0) {
      throw refuse(
          "sized numbers with a tick are not read here", FORMS, "Write 0xFFF for 12 bits of ones");
    }
    return switch (text.substring(0, Math.min(2, text.length())).toLowerCase(Locale.ROOT)) {
      case "0x" -> prefixed("a hexadecimal", 4);
      case "0o" -> prefixed("an octal", 3);
      case "0b" -> prefixed("a binary", 1);
      default -> decimal();
    };
  }

  private Literal prefixed(String form, int bitsPerDigit) {
    String digits = digits(2);
    if (digits.isEmpty()) {
      throw refuse("no digit follows the prefix", FORMS, "");
    }
    int width = digits.length() * bitsPerDigit;
    if (width > Words.MAX_WIDTH) {
      throw refuse(
          "it is written " + width + " bits wide",
          "at most 64 bits",
          "Leave out digits that the line does not have");
    }
    long value = 0;
    long unknown = 0;
    for (char digit : digits.toCharArray()) {
      boolean anything = digit == 'x' || digit == 'X';
      int known = anything ? 0 : "0123456789abcdef".indexOf(Character.toLowerCase(digit));
      if (known < 0 || known >= 1 << bitsPerDigit) {
        throw refuse(
            "'" + Excerpt.of("" + digit) + "' is not a digit of " + form + " number",
            "digits 0 to " + lastDigit(bitsPerDigit) + ", or x for unknown bits",
            "");
      }
      value = value << bitsPerDigit | known;
      unknown = unknown << bitsPerDigit | (anything ? Words.mask(bitsPerDigit) : 0);
    }
    return new Literal(value, unknown, width);
  }

  private static String lastDigit(int bitsPerDigit) {
    return Integer.toHexString((1 << bitsPerDigit) - 1).toUpperCase(Locale.ROOT);
  }

  private Literal decimal() {
    String digits = digits(0);
    for (char digit : digits.toCharArray()) {
      if (digit < '0' || digit > '9') {
        throw refuse(
            "'" + Excerpt.of("" + digit) + "' is not a digit of a decimal number",
            FORMS,
            hexHint(digit));
      }
    }
    if (digits.charAt(0) == '0' && !digits.chars().allMatch(digit -> digit == '0')) {
      throw refuse(
          "a decimal number starts with 0, which may be meant as octal or binary",
          FORMS,
          "Write " + readings(digits));
    }
    try {
      long value = Long.parseUnsignedLong(digits);
      return new Literal(value, 0, Words.widthOf(value));
    } catch (NumberFormatException tooLarge) {
      throw refuse("it needs more than 64 bits", "at most 18446744073709551615", "");
    }
  }

  /** What a number with leading zeros may have been meant as. */
  private static String readings(String digits) {
    String rest = digits.replaceFirst("^0+", "");
    if (rest.matches("[01]+")) {
      return rest + ", 0o" + rest + " or 0b" + digits;
    }
    return rest.matches("[0-7]+") ? rest + " or 0o" + rest : rest;
  }

  private static String hexHint(char digit) {
    if (digit == 'x' || digit == 'X') {
      return "Unknown bits can be written in binary, octal and hexadecimal only";
    }
    return Character.digit(digit, 16) >= 0 ? "Hexadecimal starts with 0x" : "";
  }

  /** The digits with their underscores taken out, each checked to stand between two digits. */
  private String digits(int start) {
    StringBuilder digits = new StringBuilder();
    for (int at = start; at < text.length(); at++) {
      if (text.charAt(at) != '_') {
        digits.append(text.charAt(at));
      } else if (at == start || at + 1 == text.length() || text.charAt(at + 1) == '_') {
        throw refuse("an underscore stands where no digit is on both sides", FORMS, "");
      }
    }
    return digits.toString();
  }

  private LiteralException refuse(String found, String wanted, String next) {
    return new LiteralException(text, found, wanted, next);
  }
}
