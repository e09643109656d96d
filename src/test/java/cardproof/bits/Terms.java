package cardproof.bits;

import java.math.BigInteger;
import java.util.List;
import java.util.stream.Stream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;

/** Random expression trees over a few lines of very different widths. */
final class Terms {
  static final List<Term.Line> LINES =
      List.of(
          new Term.Line("A", 12),
          new Term.Line("B", 12),
          new Term.Line("CI", 1),
          new Term.Line("N", 3),
          new Term.Line("hour.Q", 5),
          new Term.Line("W_64", 64));

  private static final List<String> PREFIXES =
      List.of("+", "-", "~", "!", "&", "~&", "|", "~|", "^", "~^", "^~");

  private final List<String> operators;

  private Terms(List<String> operators) {
    this.operators = operators;
  }

  static Arbitrary<Term> any() {
    return new Terms(Term.levels().stream().flatMap(List::stream).toList()).term(4);
  }

  /** Without {@code ===} and {@code !==}, which look at x itself. */
  static Arbitrary<Term> withoutSameness() {
    Stream<String> all = Term.levels().stream().flatMap(List::stream);
    return new Terms(
            all.filter(operator -> !operator.endsWith("==") || operator.length() < 3).toList())
        .term(3);
  }

  private Arbitrary<Term> term(int depth) {
    Arbitrary<Term> leaf = Arbitraries.oneOf(List.of(line(), line(), number(), range()));
    if (depth == 0) {
      return leaf;
    }
    Arbitrary<Term> inner = Arbitraries.lazy(() -> term(depth - 1));
    Arbitrary<Term> before =
        Combinators.combine(Arbitraries.of(PREFIXES), inner).as(Term.Before::new);
    Arbitrary<Term> between =
        Combinators.combine(inner, Arbitraries.of(operators), inner).as(Term.Between::new);
    Arbitrary<Term> choice = Combinators.combine(inner, inner, inner).as(Term.Choice::new);
    return Arbitraries.oneOf(
        List.of(leaf, before, between, between, between, choice, joined(inner), picked(inner)));
  }

  private static Arbitrary<Term> line() {
    return Arbitraries.of(LINES).map(line -> line);
  }

  private static Arbitrary<Term> number() {
    Arbitrary<Term> decimal =
        Arbitraries.bigIntegers()
            .between(BigInteger.ZERO, BigInteger.ONE.shiftLeft(64).subtract(BigInteger.ONE))
            .map(value -> new Term.Number("" + value, value, Math.max(1, value.bitLength()), true));
    Arbitrary<Term> small =
        Arbitraries.integers()
            .between(0, 17)
            .map(BigInteger::valueOf)
            .map(value -> new Term.Number("" + value, value, Math.max(1, value.bitLength()), true));
    Arbitrary<Term> hex =
        Arbitraries.strings()
            .withChars("0123456789abcdefABCDEF")
            .ofMinLength(1)
            .ofMaxLength(16)
            .map(d -> new Term.Number("0x" + d, new BigInteger(d, 16), 4 * d.length(), false));
    return Arbitraries.oneOf(List.of(decimal, small, small, hex));
  }

  private static Arbitrary<Term> range() {
    return Combinators.combine(
            Arbitraries.of(LINES),
            Arbitraries.integers().between(0, 63),
            Arbitraries.integers().between(0, 63))
        .as(
            (line, one, other) -> {
              int first = one % line.width();
              int second = other % line.width();
              return new Term.Range(line, Math.max(first, second), Math.min(first, second));
            });
  }

  private static Arbitrary<Term> joined(Arbitrary<Term> inner) {
    return Combinators.combine(
            Arbitraries.integers().between(1, 3), inner.list().ofMinSize(1).ofMaxSize(3))
        .as(
            (times, parts) -> {
              Term.Joined all = new Term.Joined(times, parts);
              return all.width() <= 64 ? all : new Term.Joined(1, parts.subList(0, 1));
            });
  }

  /** The index always holds a line, for a constant one outside the line is refused. */
  private static Arbitrary<Term> picked(Arbitrary<Term> inner) {
    Arbitrary<Term> index =
        Arbitraries.oneOf(
            List.of(
                Arbitraries.of(LINES.get(2), LINES.get(3), LINES.get(4)).map(line -> line),
                inner.map(term -> new Term.Between(LINES.get(3), "+", term)),
                inner.map(term -> new Term.Between(term, "<<", LINES.get(3)))));
    return Combinators.combine(
            Arbitraries.of(LINES),
            index,
            Arbitraries.integers().between(1, 5),
            Arbitraries.of(true, false))
        .as(
            (line, at, width, down) ->
                new Term.Picked(line, at, Math.min(width, line.width()), down));
  }
}
