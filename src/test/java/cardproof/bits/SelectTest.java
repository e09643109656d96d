package cardproof.bits;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Bit-selects and part-selects, IEEE 1364-2005 clause 5.2.1. */
class SelectTest {
  @ParameterizedTest(name = "{0} of 0xA5C with i = {1} is {2}")
  @CsvSource({
    "A[11:8], 0, 0xA",
    "A[7:4], 0, 0x5",
    "A[0:0], 0, 0b0",
    "A[11:0], 0, 0xA5C",
    "A[2], 0, 0b1",
    "A[4 +: 4], 0, 0x5",
    "A[7 -: 4], 0, 0x5",
    "A[11 -: 12], 0, 0xA5C",
    "A[i], 2, 0b1",
    "A[i], 1, 0b0",
    "A[i], 11, 0b1",
    "A[i], 12, 0bx",
    "A[i + 60], 31, 0bx",
    "A[i +: 4], 4, 0x5",
    "A[i +: 4], 10, 0bxx10",
    "A[i +: 4], 12, 0xX",
    "A[i -: 4], 7, 0x5",
    "A[i -: 4], 1, 0b00xx",
    "A[i -: 4], 13, 0bxx10",
    "A[i -: 4], 15, 0xX",
    "A[i - 1], 0, 0bx",
    "A[A[3:0]], 0, 0bx",
    "A[A[6:4]], 0, 0b0",
    "A[i ? 11 : 10 -: 2], 1, 0b10",
    "'A[{i, 0b0}]', 1, 0b1",
    "A[i + 0x7FFFFFFF +: 2], 1, 0bxx",
    "A[i + 0xFFFFFFFF +: 2], 0, 0bxx",
    "A[i + 0x100000000 +: 2], 0, 0bxx",
    "A[u], 0, 0bx",
    "A[u +: 2], 0, 0bxx",
    "'{A[3:0], A[11:4]}', 0, 0xCA5",
    "C[0], 0, 0b1",
    "C[f], 0, 0b1",
    "W[i +: 64], 0, 0x8000000000000001",
    "W[63], 0, 0b1",
    "W[w], 0, 0bx"
  })
  void reads(String text, int i, String result) {
    Lines lines =
        new Lines()
            .with("A", "0xA5C")
            .with("i", new Literal(i, 0, 5))
            .with("u", "0b0x")
            .with("C", "1")
            .with("f", "0")
            .with("W", "0x8000000000000001")
            .with("w", "0xFFFFFFFFFFFFFFFF");
    Literal wanted = Literal.parse(result);

    assertThat(Expression.compile(text, lines).width()).isEqualTo(wanted.width());
    assertThat(lines.result(text, wanted.width())).isEqualTo(wanted);
  }
}
