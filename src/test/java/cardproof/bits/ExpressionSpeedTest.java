package cardproof.bits;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** Time of one evaluation of the sum card's behaviour, against the same formula in plain Java. */
@Tag("bench")
class ExpressionSpeedTest {
  private static final int VECTORS = 4096;
  private static final int ROUNDS = 500;
  private static final int REPEATS = 7;

  private final Random random = new Random(1);
  private final long[] a = random.longs(VECTORS, 0, 4096).toArray();
  private final long[] b = random.longs(VECTORS, 0, 4096).toArray();
  private final long[] carry = random.longs(VECTORS, 0, 2).toArray();

  private long interpreted(Expression expression, Values in, Values out) {
    long sum = 0;
    for (int vector = 0; vector < VECTORS; vector++) {
      in.set(0, a[vector], 0);
      in.set(1, b[vector], 0);
      in.set(2, carry[vector], 0);
      expression.evaluate(in, out, 0, 12);
      sum += out.value(0);
    }
    return sum;
  }

  private long plain(Values in, Values out) {
    long sum = 0;
    for (int vector = 0; vector < VECTORS; vector++) {
      in.set(0, a[vector], 0);
      in.set(1, b[vector], 0);
      in.set(2, carry[vector], 0);
      out.set(0, in.value(0) + in.value(1) + in.value(2) & 0xFFF, 0);
      sum += out.value(0);
    }
    return sum;
  }

  @Test
  void aSumTakesFarLessThanAHundredNanoseconds() {
    Lines lines = new Lines().with("A", "0x000").with("B", "0x000").with("CI", "0");
    Expression sum = Expression.compile("A + B + CI", lines);
    // other shapes first, so that the calls inside are as mixed as in a real card
    Expression mixed = Expression.compile("{~A[3:0], &B} == (CI ? A << 2 : B ^ A)", lines);
    Values in = lines.values();
    Values out = new Values(1);
    long check = 0;
    double best = Double.MAX_VALUE;
    double bestPlain = Double.MAX_VALUE;
    for (int repeat = 0; repeat < REPEATS; repeat++) {
      check += interpreted(mixed, in, out) & 1;
      long start = System.nanoTime();
      long interpretedSum = 0;
      for (int round = 0; round < ROUNDS; round++) {
        interpretedSum += interpreted(sum, in, out);
      }
      long middle = System.nanoTime();
      long plainSum = 0;
      for (int round = 0; round < ROUNDS; round++) {
        plainSum += plain(in, out);
      }
      long end = System.nanoTime();
      assertThat(interpretedSum).isEqualTo(plainSum);
      best = Math.min(best, (middle - start) / (double) (VECTORS * ROUNDS));
      bestPlain = Math.min(bestPlain, (end - middle) / (double) (VECTORS * ROUNDS));
    }
    System.out.printf(
        Locale.ROOT,
        "A + B + CI: %.1f ns, plain Java %.1f ns, ratio %.1f%n",
        best,
        bestPlain,
        best / bestPlain);
    assertThat(check).isNotNegative();
    assertThat(best).isLessThan(100);
  }
}
