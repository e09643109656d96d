package cardproof.plan;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.TestCards;
import java.util.Arrays;
import java.util.BitSet;
import java.util.stream.Collectors;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Shift registers with feedback, as two-phase cards: the master takes the next word while the clock
 * is up, the slave follows while it is down. Taps for the greatest length and the XNOR form are
 * those of Xilinx application note XAPP052 (second hand); stages are counted from 1.
 */
class ShiftRegisterTest {
  private static Card card(int stages, String taps, String powerOn) {
    String fedBack =
        Arrays.stream(taps.split(" "))
            .map(tap -> "S[" + (Integer.parseInt(tap) - 1) + "]")
            .collect(Collectors.joining(", "));
    String next = "{S[" + (stages - 2) + ":0], ~^{" + fedBack + "}}";
    return TestCards.card()
        .input("CK", 1)
        .output("Q", stages, "S")
        .state("M", stages, powerOn, "CK ? " + next + " : M")
        .state("S", stages, powerOn, "CK ? S : M")
        .build();
  }

  @ParameterizedTest
  @CsvSource({
    "3, 3 2",
    "4, 4 3",
    "5, 5 3",
    "6, 6 5",
    "7, 7 6",
    "8, 8 6 5 4",
    "9, 9 5",
    "10, 10 7",
    "11, 11 9",
    "12, 12 6 4 1"
  })
  void goesThroughAllWordsButOneBeforeItComesBack(int stages, String taps) {
    int period = (1 << stages) - 1;
    Plan plan =
        PlanSketch.of(card(stages, taps, "0"))
            .repeat(period, "once round", r -> r.step(s -> s.pulse("CK", 1)))
            .plan();
    BitSet seen = new BitSet();
    long word = -1;
    VectorSource source = plan.vectors();
    while (source.hasNext()) {
      Vector vector = source.next();
      assertThat(vector.notJudgedBits()).isZero();
      if (vector.phase() == Phase.PULSE_OFF) {
        word = vector.expect()[1];
        assertThat(seen.get((int) word)).as("word %x again", word).isFalse();
        seen.set((int) word);
      }
    }
    assertThat(seen.cardinality()).isEqualTo(period);
    assertThat(word).as("back where it began").isZero();
    assertThat(seen.get(period)).as("all ones").isFalse();
  }

  @ParameterizedTest
  @CsvSource({"3, 3 2, 0b111", "8, 8 6 5 4, 0xFF", "12, 12 6 4 1, 0xFFF"})
  void locksUpAtAllOnes(int stages, String taps, String allOnes) {
    Plan plan =
        PlanSketch.of(card(stages, taps, allOnes))
            .repeat(5, "five clocks", r -> r.step(s -> s.pulse("CK", 1)))
            .plan();
    plan.vectors()
        .forEachRemaining(vector -> assertThat(vector.expect()[1]).isEqualTo((1L << stages) - 1));
  }
}
