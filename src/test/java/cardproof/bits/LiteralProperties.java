package cardproof.bits;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigInteger;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.CharRange;
import net.jqwik.api.constraints.Chars;
import net.jqwik.api.constraints.StringLength;

class LiteralProperties {
  @Property
  void readsBackWhatTheJdkWrites(@ForAll long value) {
    String digits = Long.toUnsignedString(value);
    int width = Math.max(1, new BigInteger(digits).bitLength());

    assertThat(Literal.parse(digits)).isEqualTo(new Literal(value, 0, width));
    assertThat(Literal.parse("0x" + Long.toHexString(value)).value()).isEqualTo(value);
    assertThat(Literal.parse("0b" + Long.toBinaryString(value)).value()).isEqualTo(value);
  }

  @Property
  void binaryIsReadDigitByDigit(
      @ForAll @StringLength(min = 1, max = 64) @Chars({'0', '1', 'x'}) String digits) {
    BigInteger value = new BigInteger(digits.replace('x', '0'), 2);
    BigInteger unknown = new BigInteger(digits.replace('1', '0').replace('x', '1'), 2);

    assertThat(Literal.parse("0b" + digits))
        .isEqualTo(new Literal(value.longValue(), unknown.longValue(), digits.length()));
  }

  /** Whatever is typed is a number or a clear refusal, never another exception. */
  @Property
  void anyTextIsReadOrRefused(
      @ForAll @StringLength(max = 30) @CharRange(from = ' ', to = '~') @Chars({'0', 'x', '\u00B2'})
          String text) {
    try {
      assertThat(Literal.parse(text).width()).isBetween(1, 64);
    } catch (LiteralException refused) {
      assertThat(refused.getMessage()).startsWith("number '").endsWith(".");
      assertThat(refused.found()).isNotBlank();
    }
  }
}
