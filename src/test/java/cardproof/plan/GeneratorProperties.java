package cardproof.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.stream.LongStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.LongRange;

/** What each generator promises, at every width. */
class GeneratorProperties {
  private static LongStream words(Generator generator) {
    return LongStream.range(0, generator.count()).map(generator::at);
  }

  @Property
  void grayChangesOneLineAStepVisitsEveryWordAndCloses(@ForAll @IntRange(min = 1, max = 16) int n) {
    Generator gray = Generators.gray(n);
    assertThat(gray.count()).isEqualTo(1L << n);
    assertThat(words(gray).distinct().filter(word -> word >>> n == 0).count()).isEqualTo(1L << n);
    for (long i = 0; i < gray.count(); i++) {
      assertThat(Long.bitCount(gray.at(i) ^ gray.at((i + 1) % gray.count()))).isEqualTo(1);
    }
  }

  @Property
  void grayOfAnyWidthChangesOneLineAnywhere(
      @ForAll @IntRange(min = 2, max = 62) int n, @ForAll @LongRange(min = 0) long any) {
    Generator gray = Generators.gray(n);
    long i = any % gray.count();
    assertThat(Long.bitCount(gray.at(i) ^ gray.at((i + 1) % gray.count()))).isEqualTo(1);
  }

  @Property
  void checkerboardsGoBothWaysInRunsOfTheirLength(
      @ForAll @IntRange(min = 1, max = 64) int n, @ForAll @IntRange(min = 1, max = 63) int run) {
    Generator board = Generators.checkerboard(n, run);
    assertThat(board.count()).isEqualTo(2);
    assertThat(board.at(0) ^ board.at(1)).isEqualTo(-1L >>> (64 - n));
    for (int bit = 1; bit < n; bit++) {
      boolean differs = ((board.at(0) >>> bit ^ board.at(0) >>> bit - 1) & 1) == 1;
      assertThat(differs).isEqualTo(bit % run == 0);
    }
  }

  /** Plain addition is the check: where the carry ends, the sum has its only 1. */
  @Property
  void everyCarryChainEndsOneBitFurther(@ForAll @IntRange(min = 1, max = 62) int n) {
    Generator chain = Generators.carryChain(n);
    assertThat(chain.count()).isEqualTo(n);
    for (int k = 0; k < n; k++) {
      assertThat(chain.at(k) + 1).isEqualTo(1L << (k + 1));
    }
  }

  @Property
  void carriesFromEveryBitRunFromEveryStartToEveryEnd(@ForAll @IntRange(min = 1, max = 32) int n) {
    Generator chains = Generators.carryChainsFromEveryBit(n);
    assertThat(chains.count()).isEqualTo(n * (n + 1) / 2);
    Set<Long> seen = new HashSet<>();
    int longest = 1;
    for (long joined : words(chains).toArray()) {
      long a = joined >>> n;
      long b = joined & -1L >>> (64 - n);
      int start = Long.numberOfTrailingZeros(b);
      int end = Long.numberOfTrailingZeros(a + b);
      assertThat(Long.bitCount(b)).isEqualTo(1);
      assertThat(Long.bitCount(a + b)).as("one carry, which stops once").isEqualTo(1);
      assertThat(end).isBetween(start + 1, n);
      assertThat(end - start).isGreaterThanOrEqualTo(longest);
      longest = end - start;
      assertThat(seen.add(joined)).isTrue();
    }
    assertThat(longest).isEqualTo(n);
  }

  @Property
  void countingCodesTellAllLinesApartAndFromStuckOnes(
      @ForAll @IntRange(min = 1, max = 2000) int n) {
    LineCodes codes = LineCodes.counting(n);
    long ones = -1L >>> (64 - codes.vectors());
    assertThat(LongStream.range(0, n).map(codes.code()).distinct())
        .hasSize(n)
        .allSatisfy(code -> assertThat(code).isBetween(1L, ones - 1));
    // as few as that can be: 2^(v-1) codes less the two must be too few
    assertThat((1L << (codes.vectors() - 1)) - 2).isLessThan(n);
  }

  @Property
  void complementsFollowEachCountingWord(@ForAll @IntRange(min = 1, max = 64) int n) {
    Generator plain = Generators.countingCodes(n, false);
    Generator both = Generators.countingCodes(n, true);
    assertThat(both.count()).isEqualTo(2 * plain.count());
    for (long i = 0; i < plain.count(); i++) {
      assertThat(both.at(2 * i)).isEqualTo(plain.at(i));
      assertThat(both.at(2 * i + 1) ^ plain.at(i)).isEqualTo(-1L >>> (64 - n));
    }
  }

  @Property
  void noLineCoversAnotherInConstantWeight(@ForAll @IntRange(min = 2, max = 64) int n) {
    long[] words = words(Generators.constantWeight(n)).toArray();
    long[] codes = codes(words, n);
    for (int i = 0; i < n; i++) {
      assertThat(Long.bitCount(codes[i])).isEqualTo(Math.max(1, words.length / 2));
      for (int j = 0; j < n; j++) {
        assertThat(i != j && (codes[i] | codes[j]) == codes[i]).as("%d hides %d", i, j).isFalse();
      }
    }
  }

  @Property(tries = 40)
  void aPairTourMakesEveryChangeOnceAndCloses(@ForAll @IntRange(min = 2, max = 200) int n) {
    long[] tour = words(Generators.pairTour(n)).toArray();
    assertThat(tour).hasSize(n * (n - 1) + 1);
    assertThat(tour[0]).isEqualTo(tour[tour.length - 1]).isZero();
    Map<Long, Integer> changes = new HashMap<>();
    for (int i = 1; i < tour.length; i++) {
      assertThat(tour[i]).isBetween(0L, n - 1L).isNotEqualTo(tour[i - 1]);
      changes.merge(tour[i - 1] * n + tour[i], 1, Integer::sum);
    }
    assertThat(changes).hasSize(n * (n - 1));
  }

  /** Around each seam between its parts, where a rounded root would show. */
  @Property
  void aPairTourOfAnySizeHasItsSeamsWhereTheyBelong(
      @ForAll @LongRange(min = 2, max = 1L << 31) long k) {
    Generator tour = Generators.pairTour(1L << 31);
    long seam = k * (k - 1);
    assertThat(tour.at(seam - 1)).isEqualTo(k - 1);
    assertThat(tour.at(seam)).isZero();
    assertThat(seam == tour.count() - 1 || tour.at(seam + 1) == k).isTrue();
  }

  private static long[] codes(long[] words, int lines) {
    long[] codes = new long[lines];
    for (int line = 0; line < lines; line++) {
      for (int j = 0; j < words.length; j++) {
        codes[line] |= (words[j] >>> line & 1) << j;
      }
    }
    return codes;
  }
}
