package cardproof.bits;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Every refusal points at a character and says what to do. */
class ExpressionErrorTest {
  private static final Lines LINES =
      new Lines().with("A", "0x000").with("B", "0x000").with("CI", "0").with("SEL", "0b000");

  private static ExpressionException refusal(String text) {
    return catchThrowableOfType(ExpressionException.class, () -> Expression.compile(text, LINES));
  }

  @ParameterizedTest(name = "''{0}''")
  @CsvSource(
      delimiter = ';',
      value = {
        "'' ; 0 ; the text ends where an operand should; wanted a name, a number, ( or {",
        "'   ' ; 3 ; the text ends where an operand should",
        "A + ; 3 ; the text ends where an operand should",
        "A + ) ; 4 ; ')' stands where an operand should",
        "A B ; 2 ; 'B' stands after a complete expression; wanted an operator or the end",
        "A 5 ; 2 ; '5' stands after a complete expression",
        "A + B) ; 5 ; Nothing is open here that it could close",
        "(A + B ; 6 ; the text ends here; wanted ')' to close the ( of character 1",
        "2 * (A + B] ; 10 ; ']' stands here; wanted ')' to close the ( of character 5",
        "A = B ; 2 ; Write == to compare",
        "A ~& B ; 2 ; '~&' stands after a complete expression",
        "A || || B ; 5 ; '||' stands where an operand should",
        "A ? B ; 5 ; wanted ':' between the two results of '?'",
        "A # B ; 2 ; '#' has no meaning in an expression",
        "A @ ; 2 ; '@' has no meaning",
        "A \u2212 B ; 2 ; the character U+2212 has no meaning here",
        "A \uD83D\uDE00 ; 2 ; U+1F600",
        "'A & 12''hFFF' ; 6 ; Write 0xFFF for 12 bits of ones",
        "A + 0x1G ; 4 ; number '0x1G': 'G' is not a digit of a hexadecimal number",
        "A + 010 ; 4 ; Write 10, 0o10 or 0b010",
        "A + 1.5 ; 5 ; '.' has no meaning",
        "A + CII ; 4 ; Write 'CI', the nearest known name",
        "A + sel ; 4 ; no line or bus is called 'sel'; wanted one of A, B, CI, SEL",
        "A + pick.SEL ; 4 ; no line or bus is called 'pick.SEL'",
        "A and B ; 2 ; 'and' stands after a complete expression",
        "not A ; 0 ; Write ~ for not",
        "A[12] ; 2 ; 'A' has no bit 12; wanted bits 11 to 0, for it is 12 bits wide",
        "CI[1] ; 3 ; 'CI' has no bit 1; wanted bit 0, for it is 1 bit wide",
        "A[12:4] ; 2 ; 'A' has no bit 12",
        "A[4:7] ; 4 ; wanted the higher bit first. Write A[7:4].",
        "A[0xFFFFFFFFFFFFFFFF] ; 2 ; 'A' has no bit 18446744073709551615",
        "A[9 +: 4] ; 2 ; 'A' has no bit 12",
        "A[2 -: 4] ; 2 ; 4 bits down from bit 2 end below bit 0; wanted at most 3",
        "A[SEL:0] ; 2 ; this number of bits depends on a line; wanted a constant",
        "A[4:SEL] ; 4 ; this number of bits depends on a line",
        "A[SEL +: CI] ; 9 ; this number of bits depends on a line",
        "A[SEL +: 0] ; 9 ; the count is 0; wanted 1 to 12",
        "A[SEL +: 13] ; 9 ; the count is 13; wanted 1 to 12",
        "A[0bx] ; 2 ; this constant has unknown bits",
        "A[1 / 0] ; 2 ; this constant has unknown bits",
        "A[3 ; 3 ; the text ends here; wanted ']' to close the [ after 'A'",
        "A[] ; 2 ; ']' stands where an operand should",
        "A[7:4][0] ; 6 ; bits selected from a name only. Shift and mask instead",
        "(A + B)[3] ; 7 ; bits selected from a name only",
        "{A, B}[3] ; 6 ; bits selected from a name only",
        "{A, B ; 5 ; the text ends here; wanted '}' to close the { of character 1",
        "{} ; 1 ; '}' stands where an operand should",
        "{A, } ; 4 ; '}' stands where an operand should",
        "{A, {5{A}}} ; 0 ; the parts in { } make 72 bits",
        "{6{A}} ; 0 ; the parts in { } make 72 bits; wanted at most 64",
        "{0{A}} ; 1 ; the count is 0; wanted 1 to 64",
        "{SEL{A}} ; 1 ; depends on a line",
        "{2{A} ; 5 ; wanted '}' to close the { of character 1",
        "{2{A}, B} ; 5 ; wanted '}'"
      })
  void saysWhereAndWhat(String text, int offset, String part) {
    ExpressionException refused = refusal(text);

    assertThat(refused).isNotNull().hasMessageContaining(part);
    assertThat(refused.offset()).isEqualTo(offset);
    assertThat(refused).hasMessageStartingWith("character " + (offset + 1) + " of '");
    assertThat(refused.found()).isNotBlank();
  }

  @Test
  void aLongTextIsQuotedAroundThePlace() {
    String text = "A + ".repeat(500) + "Q" + " + A".repeat(500);

    assertThat(refusal(text))
        .hasMessageStartingWith("character 2001 of '...")
        .hasMessageContaining("A + Q + A")
        .message()
        .hasSizeLessThan(300);
  }

  @Test
  void manyNamesAreNotAllListed() {
    Lines many = new Lines();
    for (int line = 0; line < 100; line++) {
      many.with("LINE" + line, "0");
    }
    assertThatThrownBy(() -> Expression.compile("Q", many))
        .hasMessageEndingWith(
            "wanted one of LINE0, LINE1, LINE2, LINE3, LINE4, LINE5, LINE6, LINE7 and 92 more.");
    assertThatThrownBy(() -> Expression.compile("Q", new Lines()))
        .hasMessage("character 1 of 'Q': no line or bus is called 'Q'.");
  }

  @Test
  void nestingIsBounded() {
    Map<String, String> nests =
        Map.of("(", "A", "~", "A", "A[SEL +", "0", "{", "A", "A ? B : ", "A", "A ? ", "A");
    nests.forEach(
        (open, core) -> {
          ExpressionException refused = refusal(open.repeat(1000) + core);
          assertThat(refused).as(open).hasMessageContaining("nest more than 200 deep");
          assertThat(refused.offset()).as(open).isLessThan(10_000);
        });
    String deep = "(".repeat(199) + "A" + ")".repeat(199);
    assertThat(LINES.result(deep, 12)).isEqualTo(Literal.parse("0x000"));
  }

  @Test
  void lengthIsBounded() {
    assertThat(refusal("A" + " ".repeat(10_000)))
        .hasMessageContaining("the expression has 10001 characters; wanted at most 10000");
    assertThat(LINES.result("A" + " ".repeat(9_999), 12)).isEqualTo(Literal.parse("0x000"));
  }

  /** The longest chain and the deepest nest there can be, on half of the usual stack. */
  @Test
  void noTextExhaustsTheStack() throws InterruptedException {
    Lines lines = new Lines().with("A", "1");
    String chain = "A+".repeat(4_999) + "A";
    // each level of the nest climbs through every level of precedence before it nests again
    String climb = "1||1&&1|1^1&1==1<1<<1+1*1**";
    String nest = (climb + "(").repeat(199) + "A" + ")".repeat(199);
    StringBuilder seen = new StringBuilder();
    Runnable both =
        () -> seen.append(lines.result(chain, 64).value()).append(lines.result(nest, 64).width());
    Thread thread = new Thread(null, both, "small stack", 512 * 1024);
    thread.setUncaughtExceptionHandler((who, failure) -> seen.append(failure));
    thread.start();
    thread.join();

    assertThat(seen).hasToString("500064");
  }

  @Test
  void anImpossibleWidthIsTheCallersMistake() {
    Expression expression = Expression.compile("A", LINES);
    Values values = LINES.values();

    assertThatThrownBy(() -> expression.evaluate(values, values, 0, 65))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> expression.evaluate(values, values, 0, 0))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
