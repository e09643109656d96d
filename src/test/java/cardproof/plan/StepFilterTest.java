package cardproof.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import cardproof.card.Card;
import cardproof.card.TestCards;
import cardproof.text.RefusedException;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

class StepFilterTest {
  private static final Card CARD = TestCards.card().input("A", 4).output("S", 4, "A").build();
  private static final Plan PLAN =
      PlanSketch.of(CARD)
          .step(s -> s.title("Nothing driven").drive("A", 0))
          .repeat(
              3,
              "soak",
              r ->
                  r.step(s -> s.title("up").drive("A", 1)).step(s -> s.title("down").drive("A", 2)))
          .step(s -> s.title("everything off").drive("A", 3))
          .plan();

  private static List<Long> kept(String... words) {
    List<Long> driven = new ArrayList<>();
    PLAN.only(new StepFilter(List.of(words), List.of()))
        .vectors()
        .forEachRemaining(vector -> driven.add(vector.level()[0]));
    return driven;
  }

  @Test
  void keepsStepsByPartOfTheirTitleCaseAside() {
    assertThat(kept("NOTHING")).containsExactly(0L);
    assertThat(kept("thing")).containsExactly(0L, 3L);
  }

  @Test
  void aRepeatThatMatchesIsKeptWhole() {
    assertThat(kept("soak")).containsExactly(1L, 2L, 1L, 2L, 1L, 2L);
  }

  @Test
  void elseOnlyWhatMatchesInsideAsOften() {
    assertThat(kept("down")).containsExactly(2L, 2L, 2L);
  }

  @Test
  void severalWordsKeepWhatAnyOfThemMatchesInThePlansOrder() {
    assertThat(kept("off", "down")).containsExactly(2L, 2L, 2L, 3L);
  }

  @Test
  void vectorsAreNumberedAnewAndKeepTheirPlace() {
    Vector first = PLAN.only(new StepFilter(List.of("off"), List.of())).vectors().next();
    assertThat(first.number()).isZero();
    assertThat(first.stepNumber()).isZero();
    assertThat(first.origin()).isEqualTo("plan.yaml:5#1");
  }

  @Test
  void aMistypedTagLeadsToTheNearestAndAForgottenSignIsSeen() {
    List<Step> tagged =
        PLAN.steps().stream()
            .map(step -> step instanceof RepeatStep repeat ? tagged(repeat) : step)
            .toList();
    for (String word : List.of("#quik", "#QUIKC", "quick")) {
      assertThatThrownBy(() -> new StepFilter(List.of(word), List.of()).keep(tagged))
          .isInstanceOf(RefusedException.class)
          .hasMessageContaining("Did you mean '#quick'?");
    }
    assertThatThrownBy(() -> new StepFilter(List.of("#quick"), List.of()).keep(PLAN.steps()))
        .isInstanceOf(RefusedException.class)
        .hasMessageContaining("No step has a tag");
  }

  private static RepeatStep tagged(RepeatStep repeat) {
    return new RepeatStep(
        repeat.at(), repeat.title(), repeat.times(), repeat.steps(), Set.of("quick", "long"));
  }

  @Test
  void everyWordThatNoTitleHoldsIsNamedWithTheNearestTitle() {
    assertThatThrownBy(() -> kept("soke", "off", "nowhere"))
        .isInstanceOfSatisfying(
            RefusedException.class,
            refused -> {
              assertThat(refused.problems()).hasSize(2);
              assertThat(refused.problems().get(0).toString())
                  .contains("--only 'soke'")
                  .contains("soak");
              assertThat(refused.problems().get(1).toString()).contains("'nowhere'");
            });
  }
}
