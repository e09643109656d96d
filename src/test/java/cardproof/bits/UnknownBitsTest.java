package cardproof.bits;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What an x does to each operator, IEEE 1364-2005 clause 5.1 (from memory where not a table). */
class UnknownBitsTest {
  private static final Lines LINES =
      new Lines()
          .with("p", "0b000111xxx")
          .with("q", "0b01x01x01x")
          .with("K", "0b1100")
          .with("X", "0bxxxx")
          .with("O", "0b1x00")
          .with("Z", "0b0x00")
          .with("x", "0bx")
          .with("t", "1")
          .with("f", "0");

  private static void check(String text, String result) {
    Literal wanted = Literal.parse(result);
    assertThat(LINES.result(text, wanted.width())).as(text).isEqualTo(wanted);
  }

  /** All nine pairs of 0, 1 and x at once. */
  @ParameterizedTest(name = "{0} is {1}")
  @CsvSource({
    "p & q,  0b00001x0xx", // table 5-14
    "p | q,  0b01x111x1x", // table 5-15
    "p ^ q,  0b01x10xxxx", // table 5-16
    "p ~^ q, 0b10x01xxxx", // table 5-17
    "p ^~ q, 0b10x01xxxx",
    "~p,     0b111000xxx", // table 5-18
    "x ? p : q, 0b0xxx1xxxx" // table 5-21
  })
  void bitByBit(String text, String result) {
    check(text, result);
  }

  @ParameterizedTest(name = "{0} is {1}")
  @CsvSource(
      delimiter = ';',
      value = {
        // clause 5.1.5: one x in arithmetic and everything is x
        "O + 0 ; 0xXX",
        "0 - O ; 0xXX",
        "O * 0 ; 0xXX",
        "0 / O ; 0xXX",
        "O % 1 ; 0xXX",
        "O ** 0 ; 0xXX",
        "0 ** O ; 0xXX",
        "+O ; 0xXX",
        "-O ; 0xXX",
        // and so do divisions by zero
        "K / 0 ; 0xXX",
        "K % 0 ; 0xXX",
        "K / (K - K) ; 0xXX",
        // over the width of the expression: zeros before it stay
        "{O + 0} ; 0x0x",
        "(O + 0) >> 62 ; 0b0000_00xx",
        // clause 5.1.7: a relation with any x is x
        "O < 0 ; 0b0x",
        "O >= 0 ; 0b0x",
        "0b0001 > Z ; 0b0x",
        "Z <= 0xF ; 0b0x",
        // clause 5.1.8: equality is x only where ambiguous
        "O == K ; 0b0x",
        "O != K ; 0b0x",
        "Z == K ; 0b00",
        "Z != K ; 0b01",
        "X == X ; 0b0x",
        // and x is a state of its own to the case equality
        "X === X ; 0b01",
        "O === K ; 0b00",
        "O !== K ; 0b01",
        "Z === 0b0x00 ; 0b01",
        "x === 0 ; 0b00",
        "x === 0b0x ; 0b01",
        // clause 5.1.9
        "x && t ; 0b0x",
        "x && f ; 0b00",
        "f && x ; 0b00",
        "x || t ; 0b01",
        "t || x ; 0b01",
        "x || f ; 0b0x",
        "x && x ; 0b0x",
        "!x ; 0b0x",
        "!O ; 0b00",
        "!Z ; 0b0x",
        "O && t ; 0b01",
        "Z || f ; 0b0x",
        // tables 5-19 and 5-20, and their negations
        "&O ; 0b00",
        "~&O ; 0b01",
        "&X ; 0b0x",
        "&0b1x1 ; 0b0x",
        "|O ; 0b01",
        "~|O ; 0b00",
        "|Z ; 0b0x",
        "~|Z ; 0b0x",
        "^O ; 0b0x",
        "~^O ; 0b0x",
        // clause 5.1.12
        "O << 1 ; 0b1_x000",
        "O >> 2 ; 0b00_1x",
        "O >>> 2 ; 0b00_1x",
        "O << 64 ; 0x00",
        "O >> 0xFFFFFFFFFFFFFFFF ; 0x00",
        "K << x ; 0xXX",
        "{K >> x} ; 0x0x",
        // clause 5.1.13: a known 1 decides the condition
        "O ? K : f ; 0xC",
        "Z ? K : 0b0100 ; 0bx100",
        "x ? K : K ; 0xC",
        "f ? X : K ; 0xC",
        // clause 5.1.14
        "{O, x, K} ; 0b1x00_x_1100",
        "{2{x, t}} ; 0bx1x1",
        // extension is with zeros, whatever the top bit
        "X | 0 ; 0x0x",
        "x ^ 0 ; 0b000x"
      })
  void spreadsNoFurtherThanTheStandardSays(String text, String result) {
    check(text, result);
  }
}
