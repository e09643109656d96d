package cardproof.bits;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LiteralTest {
  @ParameterizedTest(name = "{0}")
  @CsvSource({
    // text, value and unknown bits in hexadecimal, width; worked out by hand
    "0,                    0,                0,                1",
    "1,                    1,                0,                1",
    "12,                   C,                0,                4",
    "4095,                 FFF,              0,                12",
    "4096,                 1000,             0,                13",
    "1_000,                3E8,              0,                10",
    "00,                   0,                0,                1",
    "18446744073709551615, FFFFFFFFFFFFFFFF, 0,                64",
    "0x1F,                 1F,               0,                8",
    "0X1f,                 1F,               0,                8",
    "0x00F,                F,                0,                12",
    "0xFx0,                F00,              F0,               12",
    "0xFFFFFFFFFFFFFFFF,   FFFFFFFFFFFFFFFF, 0,                64",
    "0xXXXXXXXXXXXXXXXX,   0,                FFFFFFFFFFFFFFFF, 64",
    "0b1010_xx01,          A1,               C,                8",
    "0B0,                  0,                0,                1",
    "0bx,                  0,                1,                1",
    "0o17,                 F,                0,                6",
    "0O1x7,                47,               38,               9",
    "0o777777777777777777777, 7FFFFFFFFFFFFFFF, 0,             63"
  })
  void readsEveryForm(String text, String value, String unknown, int width) {
    assertThat(Literal.parse(text))
        .isEqualTo(
            new Literal(
                Long.parseUnsignedLong(value, 16), Long.parseUnsignedLong(unknown, 16), width));
  }

  @ParameterizedTest(name = "''{0}''")
  @CsvSource(
      delimiter = ';',
      value = {
        "'' ; empty",
        "-1 ; negative",
        "0x ; no digit follows the prefix",
        "0xG ; 'G' is not a digit of a hexadecimal number; wanted digits 0 to F",
        "0b12 ; '2' is not a digit of a binary number; wanted digits 0 to 1",
        "0o8 ; '8' is not a digit of an octal number; wanted digits 0 to 7",
        "1F ; Hexadecimal starts with 0x",
        "1x ; unknown bits can be written in binary, octal and hexadecimal only",
        "12'hFFF ; tick",
        "010 ; write 10, 0o10 or 0b010",
        "019 ; write 19.",
        "0_1 ; write 1, 0o1 or 0b01",
        "1__0 ; underscore",
        "_1 ; underscore",
        "1_ ; underscore",
        "0x_1 ; underscore",
        "18446744073709551616 ; more than 64 bits",
        "0x0_0000_0000_0000_0000 ; 68 bits wide; wanted at most 64 bits",
        "1.5 ; '.' is not a digit of a decimal number",
        "twelve ; 't' is not a digit",
        // an Arabic-Indic five is a digit to Unicode, not to a plan
        "\u0665 ; is not a digit of a decimal number",
        "0x\u0665 ; is not a digit of a hexadecimal number"
      })
  void saysWhatIsWrong(String text, String part) {
    assertThatThrownBy(() -> Literal.parse(text))
        .isInstanceOf(LiteralException.class)
        .hasMessageStartingWith("number '" + text + "': ")
        .hasMessageEndingWith(".")
        .message()
        .containsIgnoringCase(part);
  }

  @Test
  void namesTheFormsThereAre() {
    assertThatThrownBy(() -> Literal.parse("0x"))
        .hasMessage(
            "number '0x': no digit follows the prefix;"
                + " wanted a number such as 12, 0x1F, 0b1010_xx01 or 0o17.");
  }

  @Test
  void aMessageStaysOnOneLine() {
    assertThatThrownBy(() -> Literal.parse("1\n"))
        .hasMessageStartingWith("number '1 ': ' ' is not a digit of a decimal number");
  }

  @Test
  void aHugeTextDoesNotMakeAHugeMessage() {
    assertThatThrownBy(() -> Literal.parse("9".repeat(100_000)))
        .isInstanceOf(LiteralException.class)
        .message()
        .hasSizeLessThan(200);
  }

  @Test
  void refusesPlanesThatContradictTheWidth() {
    assertThatThrownBy(() -> new Literal(2, 0, 1)).isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new Literal(1, 1, 1)).isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new Literal(0, 0, 0)).isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new Literal(0, 0, 65)).isInstanceOf(IllegalArgumentException.class);
  }
}
