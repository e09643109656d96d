package cardproof.files;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.text.Position;
import java.math.BigInteger;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;

/** Index arithmetic against arithmetic without bounds. */
class IndexProperties {
  private static final List<String> NAMES = List.of("i", "w_2");

  private final RepeatValues values = new RepeatValues(NAMES);

  /** A text with what it comes to; empty where it divides by zero. */
  private record Sample(String text, Optional<BigInteger> value) {}

  private Sample sample(Random random, int depth) {
    if (depth == 0 || random.nextInt(5) == 0) {
      int leaf = random.nextInt(3);
      if (leaf == 2) {
        long number = random.nextInt(30);
        return new Sample(Long.toString(number), Optional.of(BigInteger.valueOf(number)));
      }
      String name = NAMES.get(leaf);
      return new Sample(name, Optional.of(BigInteger.valueOf(values.value(name))));
    }
    Sample left = sample(random, depth - 1);
    Sample right = sample(random, depth - 1);
    char sign = "+-*/%".charAt(random.nextInt(5));
    String blank = random.nextBoolean() ? " " : "";
    return new Sample(
        "(" + left.text() + ")" + blank + sign + blank + "(" + right.text() + ")",
        left.value().flatMap(a -> right.value().flatMap(b -> apply(sign, a, b))));
  }

  private static Optional<BigInteger> apply(char sign, BigInteger a, BigInteger b) {
    boolean divides = sign == '/' || sign == '%';
    if (divides && b.signum() == 0) {
      return Optional.empty();
    }
    return Optional.of(
        switch (sign) {
          case '+' -> a.add(b);
          case '-' -> a.subtract(b);
          case '*' -> a.multiply(b);
          case '/' -> floor(a, b);
          default -> a.subtract(floor(a, b).multiply(b));
        });
  }

  /** The largest whole number not above a/b. */
  private static BigInteger floor(BigInteger a, BigInteger b) {
    BigInteger[] both = a.divideAndRemainder(b);
    boolean above = both[1].signum() != 0 && both[1].signum() != b.signum();
    return above ? both[0].subtract(BigInteger.ONE) : both[0];
  }

  private static Optional<IndexExpression> parse(String text, Problems problems) {
    Node.Text node = new Node.Text(new Position("x", 1, 1), text, false, text, false);
    return IndexParser.read(node, 0, text.length(), NAMES, problems);
  }

  @Property(tries = 2000)
  void comesToTheSame(@ForAll long seed) {
    Random random = new Random(seed);
    values.set(0, random.nextInt(100));
    values.set(1, random.nextInt(100));
    Sample sample = sample(random, 4);
    Problems problems = new Problems(Path.of("x"));
    IndexExpression read = parse(sample.text(), problems).orElseThrow();
    Optional<BigInteger> value;
    try {
      value = Optional.of(BigInteger.valueOf(read.value(values)));
    } catch (IndexException without) {
      assertThat(without).hasMessage("divides by zero");
      value = Optional.empty();
    }
    assertThat(value).as(sample.text()).isEqualTo(sample.value());
  }

  // the precedence of school: products before sums, each from the left
  @Property(tries = 200)
  void bindsAsInSchool(
      @ForAll @net.jqwik.api.constraints.IntRange(min = 0, max = 50) int i,
      @ForAll @net.jqwik.api.constraints.IntRange(min = 1, max = 50) int w) {
    values.set(0, i);
    values.set(1, w);
    Problems problems = new Problems(Path.of("x"));
    IndexExpression read = parse("2*i+w_2-1 - i%w_2*3/2", problems).orElseThrow();
    assertThat(read.value(values)).isEqualTo(2L * i + w - 1 - (i % w) * 3 / 2);
  }

  @Property(tries = 2000)
  void anyTextIsReadOrRefusedWithItsPlace(@ForAll String text) {
    Problems problems = new Problems(Path.of("x"));
    assertThat(parse(text, problems).isEmpty()).isEqualTo(problems.count() > 0);
  }
}
