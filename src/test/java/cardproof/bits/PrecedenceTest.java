package cardproof.bits;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** Precedence and associativity, IEEE 1364-2005 table 5-4 and clause 5.1.2. */
class PrecedenceTest {
  /** The table, highest first, as printed in the standard. */
  private static final List<List<String>> TABLE =
      List.of(
          List.of("**"),
          List.of("*", "/", "%"),
          List.of("+", "-"),
          List.of("<<", ">>", "<<<", ">>>"),
          List.of("<", "<=", ">", ">="),
          List.of("==", "!=", "===", "!=="),
          List.of("&"),
          List.of("^", "^~", "~^"),
          List.of("|"),
          List.of("&&"),
          List.of("||"));

  private static int rank(String operator) {
    for (int rank = 0; rank < TABLE.size(); rank++) {
      if (TABLE.get(rank).contains(operator)) {
        return rank;
      }
    }
    throw new IllegalArgumentException(operator);
  }

  static Stream<Arguments> pairs() {
    List<String> all = TABLE.stream().flatMap(List::stream).toList();
    return all.stream().flatMap(a -> all.stream().map(b -> Arguments.of(a, b)));
  }

  /** Results of a text for many small values of its three lines. */
  private static List<Literal> results(String text) {
    List<Literal> results = new ArrayList<>();
    for (int bits = 0; bits < 512; bits++) {
      Lines lines = new Lines();
      for (int line = 0; line < 3; line++) {
        lines.with("abc".substring(line, line + 1), new Literal(bits >> 3 * line & 7, 0, 3));
      }
      results.add(lines.result(text, 16));
    }
    return results;
  }

  @ParameterizedTest(name = "a {0} b {1} c")
  @MethodSource("pairs")
  void tighterOrElseLeftmostFirst(String first, String second) {
    boolean leftFirst = rank(first) <= rank(second);
    String left = "(a " + first + " b) " + second + " c";
    String right = "a " + first + " (b " + second + " c)";

    assertThat(results("a " + first + " b " + second + " c"))
        .isEqualTo(results(leftFirst ? left : right));
  }

  /** The check above could not fail for pairs whose two readings agree; those must be few. */
  @Test
  void nearlyAllPairsTellTheReadingsApart() {
    Set<String> blind = new HashSet<>();
    pairs()
        .map(Arguments::get)
        .forEach(
            pair -> {
              String left = "(a " + pair[0] + " b) " + pair[1] + " c";
              String right = "a " + pair[0] + " (b " + pair[1] + " c)";
              if (results(left).equals(results(right))) {
                blind.add(pair[0] + " " + pair[1]);
              }
            });

    // by algebra only these may look the same either way; a left shift is a multiplication
    assertThat(blind)
        .isSubsetOf(
            "+ +", "+ -", "* *", "* <<", "* <<<", "& &", "| |", "^ ^", "&& &&", "|| ||", "^ ~^",
            "^ ^~", "~^ ^", "^~ ^", "~^ ~^", "~^ ^~", "^~ ~^", "^~ ^~");
  }

  @ParameterizedTest(name = "{0} = {1}")
  @CsvSource({
    // unary operators bind tightest, the base of a power included
    "-a ** 2, (-a) ** 2",
    "~a & b, (~a) & b",
    "!a == b, (!a) == b",
    "&a ^ b, (&a) ^ b",
    "a & &b, a & (&b)",
    "a - -b, a - (-b)",
    "!~a, !(~a)",
    "~^a + b, (~^a) + b",
    // ?: is loosest and the only one that associates to the right
    "a || b ? b : c, (a || b) ? b : c",
    "a ? b : c ? a : b, a ? b : (c ? a : b)",
    "a ? b ? c : a : b, a ? (b ? c : a) : b",
    "a ? b : c + 1, a ? b : (c + 1)"
  })
  void unaryTightestConditionalLoosest(String text, String meaning) {
    assertThat(results(text)).isEqualTo(results(meaning));
  }

  @Test
  void aPowerOfAPowerStartsAtTheLeft() {
    assertThat(new Lines().result("2 ** 3 ** 2", 16).value()).isEqualTo(64);
  }
}
