package cardproof.bits;

import static java.math.BigInteger.ONE;
import static java.math.BigInteger.TWO;
import static java.math.BigInteger.ZERO;

import java.math.BigInteger;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * An expression tree with a reference reading of IEEE 1364-2005 clause 5 (widths after table 5-22,
 * from memory), in the plainest way: recursive, on whole numbers of any size, for known values
 * only. It shares nothing with the code under test. An empty result stands for x.
 */
sealed interface Term {
  /** Self-determined width. */
  int width();

  /** Whether the width comes from a plain decimal. */
  boolean decimal();

  /** The value where the context asks for {@code bits}, at least {@link #width()}. */
  Optional<BigInteger> at(int bits, Map<String, BigInteger> lines);

  /** The value of an operand that no context reaches. */
  default Optional<BigInteger> alone(Map<String, BigInteger> lines) {
    return at(width(), lines);
  }

  /** The value of an index, a shift or an exponent. */
  default Optional<BigInteger> places(Map<String, BigInteger> lines) {
    return at(decimal() ? 64 : width(), lines);
  }

  private static BigInteger cut(BigInteger value, int bits) {
    return value.mod(TWO.pow(bits));
  }

  private static BigInteger bit(boolean holds) {
    return holds ? ONE : ZERO;
  }

  private static boolean holds(BigInteger value) {
    return value.signum() != 0;
  }

  record Line(String name, int width) implements Term {
    @Override
    public boolean decimal() {
      return false;
    }

    @Override
    public Optional<BigInteger> at(int bits, Map<String, BigInteger> lines) {
      return Optional.of(lines.get(name));
    }
  }

  record Number(String text, BigInteger value, int width, boolean decimal) implements Term {
    @Override
    public Optional<BigInteger> at(int bits, Map<String, BigInteger> lines) {
      return Optional.of(value);
    }
  }

  /** A number with x digits, which has no value among the known ones. */
  record Unknown(String text, int width) implements Term {
    @Override
    public boolean decimal() {
      return false;
    }

    @Override
    public Optional<BigInteger> at(int bits, Map<String, BigInteger> lines) {
      return Optional.empty();
    }
  }

  record Before(String operator, Term operand) implements Term {
    private boolean keepsWidth() {
      return List.of("+", "-", "~").contains(operator);
    }

    @Override
    public int width() {
      return keepsWidth() ? operand.width() : 1;
    }

    @Override
    public boolean decimal() {
      return keepsWidth() && operand.decimal();
    }

    @Override
    public Optional<BigInteger> at(int bits, Map<String, BigInteger> lines) {
      if (keepsWidth()) {
        return operand
            .at(bits, lines)
            .map(
                value ->
                    switch (operator) {
                      case "+" -> value;
                      case "-" -> cut(value.negate(), bits);
                      default -> TWO.pow(bits).subtract(ONE).subtract(value);
                    });
      }
      int ones = operand.width();
      return operand
          .alone(lines)
          .map(
              value ->
                  bit(
                      switch (operator) {
                        case "!", "~|" -> value.bitCount() == 0;
                        case "|" -> value.bitCount() > 0;
                        case "&" -> value.bitCount() == ones;
                        case "~&" -> value.bitCount() < ones;
                        case "^" -> value.bitCount() % 2 == 1;
                        case "~^", "^~" -> value.bitCount() % 2 == 0;
                        default -> throw new IllegalArgumentException(operator);
                      }));
    }
  }

  record Between(Term left, String operator, Term right) implements Term {
    private static final List<String> ONE_BIT =
        List.of("<", "<=", ">", ">=", "==", "!=", "===", "!==", "&&", "||");
    private static final List<String> LEFT_ONLY = List.of("<<", ">>", "<<<", ">>>", "**");

    @Override
    public int width() {
      if (ONE_BIT.contains(operator)) {
        return 1;
      }
      return LEFT_ONLY.contains(operator) ? left.width() : Math.max(left.width(), right.width());
    }

    @Override
    public boolean decimal() {
      if (ONE_BIT.contains(operator)) {
        return false;
      }
      return left.decimal() || !LEFT_ONLY.contains(operator) && right.decimal();
    }

    @Override
    public Optional<BigInteger> at(int bits, Map<String, BigInteger> lines) {
      Optional<BigInteger> a;
      Optional<BigInteger> b;
      if (operator.equals("&&") || operator.equals("||")) {
        a = left.alone(lines);
        b = right.alone(lines);
      } else if (ONE_BIT.contains(operator)) {
        int wider = Math.max(left.width(), right.width());
        a = left.at(wider, lines);
        b = right.at(wider, lines);
      } else {
        a = left.at(bits, lines);
        b = LEFT_ONLY.contains(operator) ? right.places(lines) : right.at(bits, lines);
      }
      boolean divides = operator.equals("/") || operator.equals("%");
      return a.isEmpty() || b.isEmpty() || divides && !holds(b.get())
          ? Optional.empty()
          : Optional.of(cut(apply(a.get(), b.get(), bits), bits));
    }

    private BigInteger apply(BigInteger a, BigInteger b, int bits) {
      return switch (operator) {
        case "+" -> a.add(b);
        case "-" -> a.subtract(b);
        case "*" -> a.multiply(b);
        case "/" -> a.divide(b);
        case "%" -> a.mod(b);
        case "**" -> a.modPow(b, TWO.pow(bits));
        case "<<", "<<<" -> b.bitLength() > 8 ? ZERO : a.shiftLeft(b.intValue());
        case ">>", ">>>" -> b.bitLength() > 8 ? ZERO : a.shiftRight(b.intValue());
        case "&" -> a.and(b);
        case "|" -> a.or(b);
        case "^" -> a.xor(b);
        case "~^", "^~" -> a.xor(b).not();
        case "==", "===" -> bit(a.equals(b));
        case "!=", "!==" -> bit(!a.equals(b));
        case "<" -> bit(a.compareTo(b) < 0);
        case "<=" -> bit(a.compareTo(b) <= 0);
        case ">" -> bit(a.compareTo(b) > 0);
        case ">=" -> bit(a.compareTo(b) >= 0);
        case "&&" -> bit(holds(a) && holds(b));
        case "||" -> bit(holds(a) || holds(b));
        default -> throw new IllegalArgumentException(operator);
      };
    }
  }

  record Choice(Term condition, Term then, Term otherwise) implements Term {
    @Override
    public int width() {
      return Math.max(then.width(), otherwise.width());
    }

    @Override
    public boolean decimal() {
      return then.decimal() || otherwise.decimal();
    }

    @Override
    public Optional<BigInteger> at(int bits, Map<String, BigInteger> lines) {
      return condition
          .alone(lines)
          .flatMap(value -> holds(value) ? then.at(bits, lines) : otherwise.at(bits, lines));
    }
  }

  record Joined(int times, List<Term> parts) implements Term {
    @Override
    public int width() {
      return times * parts.stream().mapToInt(Term::width).sum();
    }

    @Override
    public boolean decimal() {
      return false;
    }

    @Override
    public Optional<BigInteger> at(int bits, Map<String, BigInteger> lines) {
      StringBuilder digits = new StringBuilder("0");
      for (Term part : parts) {
        Optional<BigInteger> value = part.alone(lines);
        if (value.isEmpty()) {
          return value;
        }
        String binary = value.get().toString(2);
        digits.append("0".repeat(Math.max(0, part.width() - binary.length()))).append(binary);
      }
      return Optional.of(new BigInteger(digits.substring(1).repeat(times), 2));
    }
  }

  /** {@code name[index +: width]} or, downwards, {@code name[index -: width]}; one bit plain. */
  record Picked(Line line, Term index, int width, boolean down) implements Term {
    @Override
    public boolean decimal() {
      return false;
    }

    @Override
    public Optional<BigInteger> at(int bits, Map<String, BigInteger> lines) {
      BigInteger past = BigInteger.valueOf(line.width());
      return index
          .places(lines)
          .map(first -> down ? first.subtract(BigInteger.valueOf(width - 1L)) : first)
          .filter(low -> low.signum() >= 0)
          .filter(low -> low.add(BigInteger.valueOf(width)).compareTo(past) <= 0)
          .map(low -> cut(lines.get(line.name()).shiftRight(low.intValue()), width));
    }
  }

  /** {@code name[high:low]}. */
  record Range(Line line, int high, int low) implements Term {
    @Override
    public int width() {
      return high - low + 1;
    }

    @Override
    public boolean decimal() {
      return false;
    }

    @Override
    public Optional<BigInteger> at(int bits, Map<String, BigInteger> lines) {
      return Optional.of(cut(lines.get(line.name()).shiftRight(low), width()));
    }
  }

  /** The operators of one level of IEEE 1364-2005 table 5-4, the loosest first. */
  static List<List<String>> levels() {
    return Stream.of(
            "||",
            "&&",
            "|",
            "^ ~^ ^~",
            "&",
            "== != === !==",
            "< <= > >=",
            "<< >> <<< >>>",
            "+ -",
            "* / %",
            "**")
        .map(level -> Arrays.asList(level.split(" ")))
        .toList();
  }
}
