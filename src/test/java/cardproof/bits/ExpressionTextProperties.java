package cardproof.bits;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.statistics.Statistics;

/** Whatever is typed is an expression that can be evaluated, or is refused in clear words. */
class ExpressionTextProperties {
  private static final Lines LINES = new Lines().with("A", "0xA5C").with("i", "0b1x0");

  @Provide
  Arbitrary<String> pieces() {
    List<String> pieces =
        List.of(
            "A", "A", "i", "q", "A[", "]", "(", ")", "{", "}", "{2{", ",", "?", ":", "+:", "-:",
            "=", "+", "-", "*", "/", "**", "~", "!", "~&", "^~", "&", "&&", "===", "<=", ">>", "0",
            "3", "64", "0xF", "0bx", "0x", "12'", " ", "\n", "#", "\u2212", "\uD83D", ".");
    return Arbitraries.of(pieces).list().ofMaxSize(9).map(list -> String.join("", list));
  }

  @Property(tries = 5000, edgeCases = EdgeCasesMode.NONE)
  void isReadOrRefused(@ForAll("pieces") String text) {
    boolean read = readsOrRefuses(text);
    Statistics.label("text").collect(read ? "read" : "refused");
    Statistics.label("text").coverage(shares -> shares.check("read").percentage(p -> p > 1));
  }

  @Property
  void anyTextAtAllIsReadOrRefused(@ForAll String text) {
    readsOrRefuses(text);
  }

  private static boolean readsOrRefuses(String text) {
    try {
      assertThat(Expression.compile(text, LINES).width()).isBetween(1, 64);
      Literal result = LINES.result(text, 64);
      assertThat(result.value() & result.unknown()).isZero();
      return true;
    } catch (ExpressionException refused) {
      assertThat(refused.offset()).isBetween(0, text.length());
      assertThat(refused.found()).isNotBlank();
      assertThat(refused.getMessage()).startsWith("character ").endsWith(".");
      assertThat(refused.getMessage().lines()).hasSize(1);
      return false;
    }
  }
}
