package cardproof.plan;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.TestCards;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** What must come back: behaviour, what a step puts in its place, and what is left open. */
class ExpectationsTest {
  private static final Card SUM =
      TestCards.card()
          .input("A", 4)
          .input("B", 4)
          .output("S", 4, "A + B")
          .output("LAMP", 2)
          .build();
  private static final int S = 2;
  private static final int LAMP = 3;

  private static final Card REGISTER =
      TestCards.card()
          .input("D", 4)
          .input("LD", 1)
          .output("Q", 4, "R")
          .state("R", 4, "0bxxxx", "LD ? D : R")
          .build();
  private static final int Q = 2;

  private static List<Vector> vectors(PlanSketch sketch) {
    List<Vector> all = new ArrayList<>();
    sketch.plan().vectors().forEachRemaining(all::add);
    return all;
  }

  private static Vector one(PlanSketch sketch) {
    List<Vector> all = vectors(sketch);
    assertThat(all).hasSize(1);
    return all.get(0);
  }

  @Test
  void behaviourSaysWhatComes() {
    Vector vector = one(PlanSketch.of(SUM).step(s -> s.drive("A", 9).drive("B", 9)));
    assertThat(vector.expect()[S]).isEqualTo(2);
    assertThat(vector.care()[S]).isEqualTo(0xF);
    assertThat(vector.care()[0]).as("inputs are not watched").isZero();
  }

  @Test
  void whatNothingPredictsIsNotJudgedAndCounted() {
    Vector vector = one(PlanSketch.of(SUM).step(s -> s.drive("A", 9)));
    assertThat(vector.care()[LAMP]).isZero();
    assertThat(vector.notJudgedBits()).isEqualTo(2);
  }

  @Test
  void aStepOverridesBehaviourAndAddsToIt() {
    Vector vector =
        one(PlanSketch.of(SUM).step(s -> s.drive("A", 9).expect("S", "1").expect("LAMP", "3")));
    assertThat(vector.expect()[S]).isEqualTo(1);
    assertThat(vector.expect()[LAMP]).isEqualTo(3);
    assertThat(vector.notJudgedBits()).isZero();
  }

  @Test
  void expectedExpressionsSeeWhatIsDriven() {
    Vector vector = one(PlanSketch.of(SUM).step(s -> s.drive("A", 9).expect("LAMP", "A >> 2")));
    assertThat(vector.expect()[LAMP]).isEqualTo(2);
  }

  @Test
  void bitsWrittenAsXAreNotJudged() {
    Vector vector = one(PlanSketch.of(SUM).step(s -> s.drive("A", 9).expect("S", "0b1xx1")));
    assertThat(vector.expect()[S]).isEqualTo(0b1001);
    assertThat(vector.care()[S]).isEqualTo(0b1001);
    assertThat(vector.notJudgedBits()).isEqualTo(2 + 2);
  }

  @Test
  void withAPulseOnlyTheLastVectorIsHeldToTheStepsOwnWords() {
    List<Vector> all =
        vectors(
            PlanSketch.of(REGISTER).step(s -> s.drive("D", 5).pulse("LD", 1).expect("Q", "0xA")));
    assertThat(all).extracting(v -> v.care()[Q]).containsExactly(0L, 0xFL, 0xFL);
    assertThat(all).extracting(v -> v.expect()[Q]).containsExactly(0L, 5L, 0xAL);
  }

  @Test
  void eachRowIsHeldToItsOwnWords() {
    List<Vector> all =
        vectors(
            PlanSketch.of(SUM)
                .step(
                    s ->
                        s.row(Map.of("A", 1L), Map.of("LAMP", "1"))
                            .row(Map.of("A", 2L), Map.of("LAMP", "2"))
                            .pulse("B", 1)));
    assertThat(all).extracting(v -> v.expect()[LAMP]).containsExactly(0L, 0L, 1L, 0L, 0L, 2L);
    assertThat(all).extracting(v -> v.care()[LAMP]).containsExactly(0L, 0L, 3L, 0L, 0L, 3L);
  }

  @Test
  void aStateNobodyKnowsIsNotJudgedUntilItIsLoaded() {
    List<Vector> all =
        vectors(
            PlanSketch.of(REGISTER)
                .step(s -> s.drive("D", 0xC))
                .step(s -> s.drive("LD", 1))
                .step(s -> s.drive("LD", 0).drive("D", 3)));
    assertThat(all).extracting(v -> v.care()[Q]).containsExactly(0L, 0xFL, 0xFL);
    assertThat(all).extracting(v -> v.expect()[Q]).containsExactly(0L, 0xCL, 0xCL);
    assertThat(all).extracting(Vector::notJudgedBits).containsExactly(4, 0, 0);
  }

  @Test
  void whatWasForgottenIsEstablishedAgain() {
    List<Vector> all =
        vectors(
            PlanSketch.of(REGISTER)
                .step(s -> s.drive("D", 0xC).drive("LD", 1))
                .step(s -> s.drive("LD", 0))
                .step(s -> s.drive("D", 6))
                .step(s -> s.drive("LD", 1)));
    Prediction after = new Prediction(REGISTER);
    assertThat(after.again(all.get(0)).care()[Q]).isEqualTo(0xF);
    after.forget();
    assertThat(after.again(all.get(1)).care()[Q]).isZero();
    assertThat(after.again(all.get(2)).care()[Q]).isZero();
    Vector loaded = after.again(all.get(3));
    assertThat(loaded.care()[Q]).isEqualTo(0xF);
    assertThat(loaded.expect()[Q]).isEqualTo(6);
    assertThat(loaded.number()).isEqualTo(3);
  }

  /** Two registers that take each other's word rest while they are equal, known or not. */
  @Test
  void aHalfKnownStateThatGoesRoundIsTakenForUnknown() {
    Card twins =
        TestCards.card()
            .input("D", 1)
            .input("LD", 1)
            .input("SWAP", 1)
            .output("X", 1, "P")
            .output("Y", 1, "R")
            .state("P", 1, "0", "SWAP ? R : (LD ? D : P)")
            .state("R", 1, "0", "SWAP ? P : R")
            .build();
    List<Vector> all =
        vectors(
            PlanSketch.of(twins)
                .step(s -> s.drive("D", 0).drive("LD", 1))
                .step(s -> s.drive("LD", 0).drive("SWAP", 1)));
    Prediction after = new Prediction(twins);
    after.forget();
    assertThat(after.again(all.get(0)).care()).containsExactly(0, 0, 0, 1, 0);
    assertThat(after.again(all.get(1)).care()).containsExactly(0, 0, 0, 0, 0);
  }
}
