package cardproof.plan;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.TestCards;
import java.math.BigInteger;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.LongRange;
import net.jqwik.api.constraints.Size;

/** How many vectors steps stand for, and that exactly so many come. */
class ExpansionProperties {
  private static final BigInteger MOST = BigInteger.valueOf(Long.MAX_VALUE);
  private static final Card CARD =
      TestCards.card()
          .input("A", 8)
          .input("B", 8)
          .input("C", 8)
          .input("P", 1)
          .output("S", 8, "A ^ B ^ C")
          .build();

  private static List<Vector> vectors(Plan plan) {
    List<Vector> all = new ArrayList<>();
    plan.vectors().forEachRemaining(all::add);
    return all;
  }

  @Property(tries = 200)
  void aStepIsTheProductOfItsAxesRowsAndPhases(
      @ForAll @IntRange(min = 1, max = 7) int a,
      @ForAll @IntRange(min = 1, max = 7) int b,
      @ForAll @IntRange(min = 0, max = 4) int rows,
      @ForAll boolean pulsed) {
    Plan plan =
        PlanSketch.of(CARD)
            .step(
                s -> {
                  s.each("A", Generators.random(8, a, 1)).each("B", Generators.range(0, b - 1, 1));
                  for (long row = 0; row < rows; row++) {
                    s.row(Map.of("C", row), Map.of());
                  }
                  return pulsed ? s.pulse("P", 1) : s;
                })
            .plan();
    long wanted = (long) a * b * Math.max(1, rows) * (pulsed ? 3 : 1);
    assertThat(plan.vectorCount()).isEqualTo(wanted);
    assertThat(vectors(plan)).hasSize((int) wanted);
  }

  @Property(tries = 200)
  void repeatsMultiplyAndNumbersRunOn(
      @ForAll @IntRange(min = 1, max = 4) int outer,
      @ForAll @IntRange(min = 1, max = 4) int inner,
      @ForAll @IntRange(min = 1, max = 5) int words) {
    Plan plan =
        PlanSketch.of(CARD)
            .repeat(
                outer,
                "outer",
                o ->
                    o.step(s -> s.pulse("P", 1))
                        .repeat(
                            inner,
                            "inner",
                            i -> i.step(s -> s.each("A", Generators.random(8, words, 2)))))
            .plan();
    List<Vector> all = vectors(plan);
    assertThat(all).hasSize(outer * (2 + inner * words)).hasSize((int) plan.vectorCount());
    Set<String> origins = new HashSet<>();
    for (int i = 0; i < all.size(); i++) {
      assertThat(all.get(i).number()).isEqualTo(i);
      assertThat(origins.add(all.get(i).origin())).as(all.get(i).origin()).isTrue();
    }
    assertThat(all.stream().filter(v -> v.stepNumber() == 1).map(Vector::index))
        .isEqualTo(Collections.unmodifiableList(upTo((long) outer * inner * words)));
  }

  private static List<Long> upTo(long count) {
    List<Long> numbers = new ArrayList<>();
    for (long i = 0; i < count; i++) {
      numbers.add(i);
    }
    return numbers;
  }

  @Property
  void countsStayAtTheLargestLong(
      @ForAll @Size(max = 4) List<@LongRange(min = 1) Long> counts,
      @ForAll @LongRange(min = 1) long times) {
    Plan plan =
        PlanSketch.of(CARD)
            .repeat(
                times,
                "many",
                r -> {
                  counts.forEach(n -> r.step(s -> s.each("A", Generators.random(8, n, 1))));
                  return r.step(s -> s.drive("A", 0));
                })
            .plan();
    BigInteger sum =
        counts.stream().map(BigInteger::valueOf).reduce(BigInteger.ONE, BigInteger::add);
    assertThat(BigInteger.valueOf(plan.vectorCount()))
        .isEqualTo(sum.min(MOST).multiply(BigInteger.valueOf(times)).min(MOST));
  }

  @Property
  void productsOfAxesStayAtTheLargestLongToo(
      @ForAll @LongRange(min = 1) long a, @ForAll @LongRange(min = 1) long b) {
    Plan plan =
        PlanSketch.of(CARD)
            .step(
                s ->
                    s.each("A", Generators.random(8, a, 1))
                        .each("B", Generators.random(8, b, 1))
                        .pulse("P", 1))
            .plan();
    BigInteger wanted = BigInteger.valueOf(a).multiply(BigInteger.valueOf(b)).min(MOST);
    assertThat(BigInteger.valueOf(plan.vectorCount()))
        .isEqualTo(wanted.multiply(BigInteger.valueOf(3)).min(MOST));
  }
}
