package cardproof.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;

/** The generators that a plan is mostly made of, written out. */
class BasicGeneratorsTest {
  private static final long TOP = Long.MIN_VALUE;

  private static long[] words(Generator generator) {
    return LongStream.range(0, generator.count()).map(generator::at).toArray();
  }

  @Test
  void listsKeepTheirOrderAndRepeats() {
    assertThat(words(Generators.list(List.of(5L, 1L, 5L, -1L)))).containsExactly(5, 1, 5, -1);
  }

  @Test
  void walksBeginAtBitNought() {
    assertThat(words(Generators.walkingOnes(4))).containsExactly(1, 2, 4, 8);
    assertThat(words(Generators.walkingZeros(4))).containsExactly(0xE, 0xD, 0xB, 0x7);
    assertThat(words(Generators.walkingOnes(1))).containsExactly(1);
    assertThat(words(Generators.walkingZeros(1))).containsExactly(0);
    assertThat(Generators.walkingOnes(64).at(63)).isEqualTo(TOP);
    assertThat(Generators.walkingZeros(64).at(63)).isEqualTo(Long.MAX_VALUE);
  }

  @Test
  void allCountsUp() {
    assertThat(words(Generators.all(3))).containsExactly(0, 1, 2, 3, 4, 5, 6, 7);
    assertThat(Generators.all(62).count()).isEqualTo(1L << 62);
    assertThat(Generators.all(62).at((1L << 62) - 1)).isEqualTo((1L << 62) - 1);
  }

  @Test
  void rangesGoUpAndDownAndMeetTheirEndWhereTheStepDoes() {
    assertThat(words(Generators.range(3, 6, 1))).containsExactly(3, 4, 5, 6);
    assertThat(words(Generators.range(6, 3, 1))).containsExactly(6, 5, 4, 3);
    assertThat(words(Generators.range(0, 10, 5))).containsExactly(0, 5, 10);
    assertThat(words(Generators.range(0, 9, 5))).containsExactly(0, 5);
    assertThat(words(Generators.range(9, 0, 5))).containsExactly(9, 4);
    assertThat(words(Generators.range(7, 7, 100))).containsExactly(7);
  }

  @Test
  void rangesAtTheTopOfSixtyThreeBits() {
    Generator whole = Generators.range(0, Long.MAX_VALUE, 1);
    assertThat(whole.count()).isEqualTo(Long.MAX_VALUE);
    assertThat(whole.at(whole.count() - 1)).isEqualTo(Long.MAX_VALUE - 1);
    assertThat(words(Generators.range(Long.MAX_VALUE - 2, Long.MAX_VALUE, 1)))
        .containsExactly(Long.MAX_VALUE - 2, Long.MAX_VALUE - 1, Long.MAX_VALUE);
    assertThat(words(Generators.range(Long.MAX_VALUE, 0, Long.MAX_VALUE)))
        .containsExactly(Long.MAX_VALUE, 0);
  }

  @Test
  void rangesOfSixtyFourBitsAreUnsigned() {
    assertThat(words(Generators.range(Long.MAX_VALUE, TOP + 1, 1)))
        .containsExactly(Long.MAX_VALUE, TOP, TOP + 1);
    assertThat(words(Generators.range(-1, -3, 1))).containsExactly(-1, -2, -3);
    assertThat(words(Generators.range(0, -1, TOP))).containsExactly(0, TOP);
    assertThat(Generators.range(0, -1, 1).count()).isEqualTo(Long.MAX_VALUE);
  }

  /**
   * The first five outputs of the published reference implementation of SplitMix64 for seed 1234567
   * (from memory).
   */
  @Test
  void randomWordsAreThoseOfSplitMix64() {
    assertThat(words(Generators.random(64, 5, 1_234_567)))
        .containsExactly(
            Long.parseUnsignedLong("6457827717110365317"),
            Long.parseUnsignedLong("3203168211198807973"),
            Long.parseUnsignedLong("9817491932198370423"),
            Long.parseUnsignedLong("4593380528125082431"),
            Long.parseUnsignedLong("16408922859458223821"));
  }

  @Test
  void narrowRandomWordsAreTheLowBitsOfWideOnes() {
    Generator wide = Generators.random(64, 50, 7);
    Generator narrow = Generators.random(12, 50, 7);
    for (int i = 0; i < 50; i++) {
      assertThat(narrow.at(i)).isEqualTo(wide.at(i) & 0xFFF);
    }
  }

  @Test
  void theSeedDecides() {
    assertThat(words(Generators.random(12, 100, 5)))
        .isEqualTo(words(Generators.random(12, 100, 5)))
        .isNotEqualTo(words(Generators.random(12, 100, 6)));
  }

  @Test
  void wordsCanBeAskedForInAnyOrder() {
    Generator random = Generators.random(32, 1_000, 9);
    long last = random.at(999);
    random.at(0);
    assertThat(random.at(999)).isEqualTo(last);
  }
}
