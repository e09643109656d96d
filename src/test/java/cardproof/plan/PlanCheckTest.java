package cardproof.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import cardproof.card.Card;
import cardproof.card.Sharing;
import cardproof.card.TestCards;
import cardproof.text.RefusedException;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class PlanCheckTest {
  private static Card onBus(Sharing sharing, String powerOn) {
    return TestCards.card()
        .input("SEL", 1)
        .input("LD", 1)
        .shared("D", 4, sharing, "SEL ? R : 0")
        .output("Q", 4, "R")
        .state("R", 4, powerOn, "LD ? D : R")
        .build();
  }

  private static PlanCheck check(PlanSketch sketch) {
    return PlanCheck.of(sketch.plan(), done -> {});
  }

  private static PlanSketch bothEnds(Card card) {
    return PlanSketch.of(card)
        .step(s -> s.drive("D", 6).pulse("LD", 1))
        .step(s -> s.drive("SEL", 1))
        .step(s -> s.drive("D", 1))
        .step(s -> s.release("D"));
  }

  @Test
  void countsVectorsAndBitsThatNothingJudges() {
    Card card = TestCards.card().input("A", 2).output("S", 2, "A").output("LAMP", 3).build();
    PlanCheck check =
        check(
            PlanSketch.of(card)
                .step(s -> s.each("A", Generators.all(2)))
                .step(s -> s.drive("A", 1).expect("LAMP", "0b1xx")));
    assertThat(check.vectors()).isEqualTo(5);
    assertThat(check.notJudgedBits()).isEqualTo(4 * 3 + 2);
    assertThat(check.warnings()).isEmpty();
  }

  @Test
  void warnsOnceOfAWiredOrBusDrivenFromBothEnds() {
    PlanCheck check = check(bothEnds(onBus(Sharing.WIRED_OR, "0")));
    assertThat(check.warnings()).hasSize(1);
    assertThat(check.warnings().get(0).toString())
        .startsWith("plan.yaml:2:5: card and fixture both drive bus D in vector plan.yaml:2#1")
        .contains("OR of both");
  }

  @Test
  void whatBothEndsDriveIsExpectedAsTheirOr() {
    List<Vector> all = new ArrayList<>();
    bothEnds(onBus(Sharing.WIRED_OR, "0")).plan().vectors().forEachRemaining(all::add);
    assertThat(all).extracting(v -> v.expect()[2]).containsExactly(6L, 6L, 6L, 6L, 7L, 6L);
  }

  @Test
  void refusesAnExclusiveBusDrivenFromBothEnds() {
    assertThatThrownBy(() -> check(bothEnds(onBus(Sharing.EXCLUSIVE, "0"))))
        .isInstanceOf(RefusedException.class)
        .hasMessageContaining("plan.yaml:2:5")
        .hasMessageContaining("exclusive bus D")
        .hasMessageContaining("the card to 0x6")
        .hasMessageContaining("Release D");
  }

  @Test
  void refusesItAlsoWhereTheCardsWordIsUnknown() {
    Card card = onBus(Sharing.EXCLUSIVE, "0xx");
    assertThatThrownBy(() -> check(PlanSketch.of(card).step(s -> s.drive("D", 0).drive("SEL", 1))))
        .isInstanceOf(RefusedException.class)
        .hasMessageContaining("the card to 0xx");
  }

  @Test
  void allowsAnExclusiveBusThatIsReleasedFirst() {
    PlanCheck check =
        check(
            PlanSketch.of(onBus(Sharing.EXCLUSIVE, "0"))
                .step(s -> s.drive("D", 6).pulse("LD", 1))
                .step(s -> s.release("D").drive("SEL", 1))
                .step(s -> s.drive("SEL", 0))
                .step(s -> s.drive("D", 3)));
    assertThat(check.warnings()).isEmpty();
  }

  /** Common practice, no source: a plus-one chain that feeds itself never comes to rest. */
  @Test
  void refusesABehaviourThatNeverRestsWithPlaceAndLoop() {
    Card fedBack =
        TestCards.card()
            .input("RUN", 1)
            .output("Y", 4, "C")
            .state("C", 4, "0", "RUN ? C + 1 : 0")
            .build();
    assertThatThrownBy(
            () ->
                check(
                    PlanSketch.of(fedBack)
                        .step(s -> s.drive("RUN", 0))
                        .step(s -> s.drive("RUN", 1))))
        .isInstanceOf(RefusedException.class)
        .hasMessageContaining("plan.yaml:2:5")
        .hasMessageContaining("with RUN=1 the card's behaviour never comes to rest")
        .hasMessageContaining("The loop is C -> C");
  }

  @Test
  void tellsHowFarItIs() {
    Card card = TestCards.card().input("A", 12).output("S", 12, "A").build();
    List<Long> told = new ArrayList<>();
    PlanCheck check =
        PlanCheck.of(
            PlanSketch.of(card).step(s -> s.each("A", Generators.random(12, 250_000, 1))).plan(),
            told::add);
    assertThat(check.vectors()).isEqualTo(250_000);
    assertThat(told).containsExactly(100_000L, 200_000L);
  }
}
