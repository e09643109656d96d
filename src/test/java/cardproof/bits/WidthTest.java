package cardproof.bits;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Widths, IEEE 1364-2005 clauses 5.4 and 5.5 and table 5-22. */
class WidthTest {
  private static final Lines LINES =
      new Lines().with("A", "0xFFF").with("B", "0x801").with("i", "0b111").with("j", "0b11111");

  /** One row of the table after the other; A is 12 bits wide, i 3, j 5. */
  @ParameterizedTest(name = "{0} has {1} bits")
  @CsvSource(
      delimiter = ';',
      value = {
        "5 ; 3",
        "0x005 ; 12",
        "A + i ; 12",
        "i - A ; 12",
        "i * j ; 5",
        "j / i ; 5",
        "j % i ; 5",
        "i & j ; 5",
        "i | j ; 5",
        "i ^ j ; 5",
        "i ^~ j ; 5",
        "i ~^ j ; 5",
        "+i ; 3",
        "-i ; 3",
        "~i ; 3",
        "A === i ; 1",
        "A !== i ; 1",
        "A == i ; 1",
        "A != i ; 1",
        "A > i ; 1",
        "A >= i ; 1",
        "A < i ; 1",
        "A <= i ; 1",
        "A && i ; 1",
        "A || i ; 1",
        "!A ; 1",
        "&A ; 1",
        "~&A ; 1",
        "|A ; 1",
        "~|A ; 1",
        "^A ; 1",
        "~^A ; 1",
        "^~A ; 1",
        "i >> j ; 3",
        "i << j ; 3",
        "i ** j ; 3",
        "i >>> j ; 3",
        "i <<< j ; 3",
        "A ? i : j ; 5",
        "{i, j} ; 8",
        "{3{i, j}} ; 24",
        "A[7:4] ; 4",
        "A[i] ; 1",
        "A[i +: 4] ; 4",
        "A[i -: 4] ; 4"
      })
  void followsTheTable(String text, int width) {
    assertThat(Expression.compile(text, LINES).width()).isEqualTo(width);
  }

  @ParameterizedTest(name = "{0} is {1}")
  @CsvSource(
      delimiter = ';',
      value = {
        // context-determined operands grow with zeros to the 64 bits of the target
        "A + B ; 0x1800",
        "~i ; 0xFFFFFFFFFFFFFFF8",
        "-i ; 0xFFFFFFFFFFFFFFF9",
        "A << 4 ; 0xFFF0",
        "(A + B) >> 1 ; 0xC00",
        "A * B ; 0x8007FF",
        "i ** 3 ; 0x157",
        "1 ? A + B : i ; 0x1800",
        // operands of a comparison grow to the wider of the two only
        "A + B == 0x800 ; 1",
        "A + B == 0x0800 ; 0",
        "~i == 0b000 ; 1",
        "~i == j ; 0",
        "~i < j ; 1",
        // self-determined operands do not grow
        "{A + B} ; 0x800",
        "{~i, i} ; 0x7",
        "{2{~i}} ; 0",
        "|(A + 1) ; 0",
        "&~(i ^ i) ; 1",
        "!(i + 0b001) ; 1",
        "(i + 0b001) && 1 ; 0",
        "(i + 0b001) ? 5 : 6 ; 6",
        "1 << (i + 0b001) ; 1",
        "3 ** (i + 0b001) ; 1",
        "B[i + 0b001] ; 1"
      })
  void growsOnlyWhatTheContextReaches(String text, String result) {
    assertThat(LINES.result(text, 64).value()).isEqualTo(Literal.parse(result).value());
  }

  /**
   * Where the standard's plain decimals, at least 32 bits wide (clause 3.5.1), keep a number of
   * places from wrapping, ours do too.
   */
  @ParameterizedTest(name = "{0} is {1}")
  @CsvSource(
      delimiter = ';',
      value = {
        "1 << 1 + 1 ; 4",
        "1 << i + 1 ; 0x100",
        "2 ** (i + 1) ; 0x100",
        "A[i + 1 +: 4] ; 0xF",
        "B[3 + 8] ; 1",
        "{1 + 1{i}} ; 0b111111",
        "B[8 + 3 : 2 + 2 + 4] ; 8"
      })
  void placesGivenInDecimalsDoNotWrap(String text, String result) {
    assertThat(LINES.result(text, 64)).isEqualTo(widened(Literal.parse(result)));
  }

  private static Literal widened(Literal literal) {
    return new Literal(literal.value(), literal.unknown(), 64);
  }

  @Test
  void theTargetIsCutAfterwards() {
    assertThat(LINES.result("A + B", 12)).isEqualTo(Literal.parse("0x800"));
    assertThat(LINES.result("(A + B) >> 12", 1)).isEqualTo(Literal.parse("1"));
    assertThat(LINES.result("i", 1)).isEqualTo(Literal.parse("1"));
  }

  @Test
  void aSlotIsCutToItsWidth() {
    Values values = LINES.values();
    values.set(2, 0xFF, 0xF00);
    Expression.compile("i", LINES).evaluate(values, values, 0, 64);

    assertThat(values.value(0)).isEqualTo(7);
    assertThat(values.unknown(0)).isZero();
  }
}
