package cardproof.bits;

import java.math.BigInteger;
import java.util.Locale;
import java.util.Random;

/** Random numbers in every form of {@link Literal}. */
final class RandomNumbers {
  /** A 1 of one bit. */
  static final Term ONE_BIT = new Term.Number("0b1", BigInteger.ONE, 1, false);

  private static final int FEW = 18;

  private final Random random;

  RandomNumbers(Random random) {
    this.random = random;
  }

  Term next() {
    return switch (random.nextInt(8)) {
      case 0 -> decimal(spaced(new BigInteger(1 + random.nextInt(64), random).toString()));
      case 1, 2 -> few();
      case 3, 4 -> prefixed("0x", 4);
      case 5 -> prefixed("0o", 3);
      default -> prefixed("0b", 1);
    };
  }

  /** A small decimal. */
  Term few() {
    return decimal(random.nextInt(FEW));
  }

  static Term decimal(int value) {
    return decimal("" + value);
  }

  private static Term decimal(String text) {
    BigInteger value = new BigInteger(text.replace("_", ""));
    return new Term.Number(text, value, Math.max(1, value.bitLength()), true);
  }

  private Term prefixed(String prefix, int bitsPerDigit) {
    int most = Words.MAX_WIDTH / bitsPerDigit;
    int count = 1 + random.nextInt(random.nextBoolean() ? most : 4);
    boolean withX = random.nextInt(4) == 0;
    StringBuilder digits = new StringBuilder();
    for (int digit = 0; digit < count; digit++) {
      int value = random.nextInt(1 << bitsPerDigit);
      String plain = Integer.toString(value, 1 << bitsPerDigit);
      digits.append(withX && random.nextInt(3) == 0 ? "x" : plain);
    }
    String text = prefix + spaced(digits.toString());
    text = random.nextInt(4) == 0 ? text.toUpperCase(Locale.ROOT) : text;
    int width = count * bitsPerDigit;
    return digits.indexOf("x") >= 0
        ? new Term.Unknown(text, width)
        : new Term.Number(text, new BigInteger(digits.toString(), 1 << bitsPerDigit), width, false);
  }

  /** With an underscore now and then. */
  private String spaced(String digits) {
    StringBuilder text = new StringBuilder(digits.substring(0, 1));
    for (char digit : digits.substring(1).toCharArray()) {
      text.append(random.nextInt(8) == 0 ? "_" : "").append(digit);
    }
    return text.toString();
  }
}
