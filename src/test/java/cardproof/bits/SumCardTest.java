package cardproof.bits;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The behaviour of the 12-bit sum card, against sums worked out by hand. */
class SumCardTest {
  @ParameterizedTest
  @CsvSource({
    "0x000, 0x000, 0, 0x000, 0",
    "0x001, 0x001, 1, 0x003, 0",
    "0xFFF, 0x001, 0, 0x000, 1",
    "0xFFF, 0xFFF, 1, 0xFFF, 1",
    "0x7FF, 0x000, 1, 0x800, 0"
  })
  void addsWithCarry(String a, String b, String carryIn, String sum, String carryOut) {
    Lines lines = new Lines().with("A", a).with("B", b).with("CI", carryIn);

    assertThat(lines.result("A + B + CI", 12)).isEqualTo(Literal.parse(sum));
    assertThat(lines.result("(A + B + CI) >> 12", 1)).isEqualTo(Literal.parse(carryOut));
  }

  @ParameterizedTest
  @CsvSource({"0x000, 1", "0x0FF, 0"})
  void meansWhatItLooksLike(String a, String allOnes) {
    Lines lines = new Lines().with("A", a).with("B", "0xABC");

    assertThat(lines.result("~A == 0xFFF", 1)).isEqualTo(Literal.parse(allOnes));
    long inverted = ~lines.values().value(0) & 0xFFF;
    assertThat(lines.result("{~A, B}", 24)).isEqualTo(new Literal(inverted << 12 | 0xABC, 0, 24));
  }
}
