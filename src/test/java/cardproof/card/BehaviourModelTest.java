package cardproof.card;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;

/** Facts of the trade about chains and registers, common practice, no source. */
class BehaviourModelTest {
  /** A plus-one chain of 16 bits: its carry-in is tied to 1. */
  private static Card plusOne() {
    return TestCards.card().input("A", 16).output("S", 16, "A + 1").build();
  }

  private static Card register() {
    return TestCards.card()
        .input("D", 12)
        .input("LD", 1)
        .output("Q", 12, "R")
        .state("R", 12, "0", "LD ? D : R")
        .build();
  }

  private static long after(BehaviourModel model, int output, long... driven) {
    model.apply(driven);
    assertThat(model.unknown(output)).isZero();
    return model.value(output);
  }

  @Test
  void aPlusOneChainGivesOneForNothingDriven() {
    assertThat(after(new BehaviourModel(plusOne()), 1, 0, 0)).isEqualTo(1);
  }

  @Test
  void theCarryCrossesTheMiddleOfSixteenBits() {
    assertThat(after(new BehaviourModel(plusOne()), 1, 0x00FF, 0)).isEqualTo(0x0100);
  }

  @Test
  void allOnesPlusOneIsNothing() {
    assertThat(after(new BehaviourModel(plusOne()), 1, 0xFFFF, 0)).isZero();
  }

  @Test
  void aRegisterPowersUpClearAndHoldsWhileItIsNotLoaded() {
    BehaviourModel model = new BehaviourModel(register());
    assertThat(after(model, 2, 0xABC, 0, 0)).isZero();
    assertThat(after(model, 2, 0xABC, 1, 0)).isEqualTo(0xABC);
    assertThat(after(model, 2, 0xABC, 0, 0)).isEqualTo(0xABC);
    assertThat(after(model, 2, 0x543, 0, 0)).isEqualTo(0xABC);
  }

  @Test
  void aForgottenRegisterIsUnknownUntilItIsLoaded() {
    BehaviourModel model = new BehaviourModel(register());
    after(model, 2, 0xABC, 1, 0);
    model.forget();
    model.apply(new long[] {0x111, 0, 0});
    assertThat(model.unknown(2)).isEqualTo(0xFFF);
    assertThat(after(model, 2, 0x111, 1, 0)).isEqualTo(0x111);
  }

  @Test
  void aChainThatFeedsItselfNeverRestsAndItsLoopIsNamed() {
    Card fedBack =
        TestCards.card()
            .input("GO", 1)
            .output("S", 12, "C")
            .state("C", 12, "0", "GO ? C + 1 : C")
            .build();
    BehaviourModel model = new BehaviourModel(fedBack);
    model.apply(new long[] {0, 0});
    assertThat(model.value(1)).isZero();
    assertThatThrownBy(() -> model.apply(new long[] {1, 0}))
        .isInstanceOfSatisfying(
            NeverRestsException.class, e -> assertThat(e.loop()).containsExactly("C", "C"));
  }

  @Test
  void aLoopThroughTwoStatesIsNamedInTheOrderAChangeTravels() {
    Card twoPhases =
        TestCards.card()
            .input("GO", 1)
            .output("Q", 4, "SLOW")
            .state("NEXT", 4, "0", "GO ? SLOW + 1 : NEXT")
            .state("SLOW", 4, "0", "GO ? NEXT : SLOW")
            .build();
    assertThatThrownBy(() -> new BehaviourModel(twoPhases).apply(new long[] {1, 0}))
        .isInstanceOfSatisfying(
            NeverRestsException.class,
            e -> assertThat(e.loop()).containsExactly("SLOW", "NEXT", "SLOW"));
  }

  @Test
  void aRegisterBetweenChainAndItselfLetsItRest() {
    Card hour =
        TestCards.card()
            .input("TAKE", 1)
            .input("GIVE", 1)
            .output("Q", 12, "HELD")
            .state("NEXT", 12, "0", "TAKE ? HELD + 1 : NEXT")
            .state("HELD", 12, "0", "GIVE ? NEXT : HELD")
            .build();
    BehaviourModel model = new BehaviourModel(hour);
    for (int count = 1; count <= 20; count++) {
      model.apply(new long[] {1, 0, 0});
      model.apply(new long[] {0, 0, 0});
      model.apply(new long[] {0, 1, 0});
      assertThat(after(model, 2, 0, 0, 0)).isEqualTo(count);
    }
  }

  @Test
  void aSharedBusReadsAsTheOrOfCardAndFixture() {
    Card card =
        TestCards.card()
            .input("SEL", 1)
            .shared("D", 12, Sharing.WIRED_OR, "SEL ? 0x0F0 : 0")
            .build();
    BehaviourModel model = new BehaviourModel(card);
    assertThat(after(model, 1, 0, 0x00F)).isEqualTo(0x00F);
    assertThat(model.cardDrives(1)).isZero();
    assertThat(after(model, 1, 1, 0x00F)).isEqualTo(0x0FF);
    assertThat(model.cardDrives(1)).isEqualTo(0x0F0);
  }

  @Test
  void outputsMayReadOutputsButNotInACircle() {
    Card chained =
        TestCards.card().input("A", 4).output("T", 4, "S + 1").output("S", 4, "A + 1").build();
    assertThat(after(new BehaviourModel(chained), 1, 3, 0, 0)).isEqualTo(5);
    TestCards circle = TestCards.card().input("A", 4).output("S", 4, "T | A").output("T", 4, "S");
    assertThatThrownBy(circle::build)
        .isInstanceOfSatisfying(
            OutputLoopException.class, e -> assertThat(e.loop()).containsExactly("S", "T", "S"));
  }

  @Test
  void whatNothingPredictsIsUnknown() {
    Card card = TestCards.card().input("A", 4).output("S", 4, "A").output("T", 4).build();
    BehaviourModel model = new BehaviourModel(card);
    model.apply(new long[] {5, 0, 0});
    assertThat(model.unknown(1)).isZero();
    assertThat(model.unknown(2)).isEqualTo(0xF);
  }
}
