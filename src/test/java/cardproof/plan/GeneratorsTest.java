package cardproof.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Generators written out, and held against figures from elsewhere. */
class GeneratorsTest {
  private static long[] words(Generator generator) {
    return LongStream.range(0, generator.count()).map(generator::at).toArray();
  }

  @Test
  void listsRangesAndWalksAreWhatTheySay() {
    assertThat(words(Generators.walkingOnes(3))).containsExactly(1, 2, 4);
    assertThat(words(Generators.walkingZeros(3))).containsExactly(6, 5, 3);
    assertThat(words(Generators.all(2))).containsExactly(0, 1, 2, 3);
    assertThat(words(Generators.range(9, 0, 4))).containsExactly(9, 5, 1);
    assertThat(Generators.walkingOnes(64).at(63)).isEqualTo(Long.MIN_VALUE);
  }

  /**
   * The first outputs of SplitMix64 with seed 1234567, as Rosetta Code lists them (from memory).
   */
  @Test
  void randomWordsAreThoseOfSplitMix64() {
    assertThat(words(Generators.random(64, 3, 1234567)))
        .containsExactly(
            6457827717110365317L,
            3203168211198807973L,
            Long.parseUnsignedLong("9817491932198370423"));
  }

  /** The reflected code of three bits as in the first table of Gray's patent (from memory). */
  @Test
  void grayOfThreeBits() {
    assertThat(words(Generators.gray(3)))
        .containsExactly(0b000, 0b001, 0b011, 0b010, 0b110, 0b111, 0b101, 0b100);
  }

  /** Lines toggled over all 16-bit words: 65,535 in Gray order, 131,054 counting (computed). */
  @Test
  void grayMovesHalfAsManyLinesAsCounting() {
    assertThat(toggles(Generators.gray(16))).isEqualTo(65_535);
    assertThat(toggles(Generators.all(16))).isEqualTo(131_054);
  }

  private static long toggles(Generator words) {
    return LongStream.range(1, words.count())
        .map(i -> Long.bitCount(words.at(i) ^ words.at(i - 1)))
        .sum();
  }

  @Test
  void checkerboardsCoarseAndFine() {
    assertThat(words(Generators.checkerboard(12, 1))).containsExactly(0x555, 0xAAA);
    assertThat(words(Generators.checkerboard(12, 2))).containsExactly(0x333, 0xCCC);
    assertThat(words(Generators.checkerboard(12, 4))).containsExactly(0xF0F, 0x0F0);
    assertThat(words(Generators.checkerboard(12, 8))).containsExactly(0x0FF, 0xF00);
    assertThat(words(Generators.checkerboard(1, 1))).containsExactly(1, 0);
  }

  @Test
  void carriesRunEverFurther() {
    assertThat(words(Generators.carryChain(4))).containsExactly(1, 3, 7, 15);
    assertThat(Generators.carryChain(64).at(63)).isEqualTo(-1L);
    assertThat(words(Generators.carryChainsFromEveryBit(3)))
        .containsExactly(0b001_001, 0b010_010, 0b100_100, 0b011_001, 0b110_010, 0b111_001);
    assertThat(Generators.carryChainsFromEveryBit(12).count()).isEqualTo(78);
  }

  /** Sizes of the modified counting sequence, ceil(log2(n+2)): published figures (from memory). */
  @ParameterizedTest
  @CsvSource({"6, 3", "7, 4", "12, 4", "14, 4", "15, 5", "254, 8", "255, 9"})
  void countingTakesSoManyVectors(int lines, int vectors) {
    assertThat(LineCodes.counting(lines).vectors()).isEqualTo(vectors);
  }

  @Test
  void countingOfSixLines() {
    assertThat(words(Generators.countingCodes(6, false)))
        .containsExactly(0b010101, 0b100110, 0b111000);
    assertThat(words(Generators.countingCodes(6, true)))
        .containsExactly(0b010101, 0b101010, 0b100110, 0b011001, 0b111000, 0b000111);
    assertThat(Generators.countingCodes(12, true).count()).isEqualTo(8);
  }

  /**
   * The smallest v with v choose v/2 at least the number of lines: Sperner's theorem, with the
   * central binomials 1 2 3 6 10 20 35 70 (OEIS A001405).
   */
  @ParameterizedTest
  @CsvSource({
    "1, 1", "2, 2", "3, 3", "4, 4", "6, 4", "7, 5", "10, 5", "11, 6", "12, 6", "20, 6", "21, 7",
    "35, 7", "36, 8", "64, 8"
  })
  void constantWeightTakesSoManyVectors(int lines, int vectors) {
    assertThat(Generators.constantWeight(lines).count()).isEqualTo(vectors);
  }

  @Test
  void twelveLinesHaveThreeOfSix() {
    LineCodes codes = LineCodes.constantWeight(12);
    assertThat(IntStream.range(0, 12).mapToLong(codes.code()::applyAsLong))
        .allSatisfy(code -> assertThat(Long.bitCount(code)).isEqualTo(3))
        .startsWith(0b000111L, 0b001011L, 0b001101L, 0b001110L, 0b010011L);
  }

  @Test
  void eightCodesHave56Changes() {
    assertThat(words(Generators.pairTour(3))).containsExactly(0, 1, 0, 2, 1, 2, 0);
    assertThat(Generators.pairTour(8).count() - 1).isEqualTo(56);
  }
}
