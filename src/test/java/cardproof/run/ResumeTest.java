package cardproof.run;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.TestCards;
import cardproof.plan.Generators;
import cardproof.plan.Plan;
import cardproof.plan.PlanSketch;
import java.nio.file.Path;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A run that lost its line and was continued has the vectors of one that never did. */
class ResumeTest {
  private static final int ALL_CUTS = 200;

  @TempDir private Path folder;

  private static Plan combinational() {
    Card card = TestCards.card().input("A", 4).output("S", 4, "A").build();
    return PlanSketch.of(card)
        .step(s -> s.each("A", Generators.random(4, 20, 3)))
        .repeat(3, "again", r -> r.step(s -> s.each("A", Generators.all(4))))
        .plan();
  }

  private static Plan register() {
    Card card =
        TestCards.card()
            .input("D", 4)
            .input("LOAD", 1)
            .state("HOLD", 4, "0bxxxx", "LOAD ? D : HOLD")
            .output("Q", 4, "HOLD")
            .build();
    return PlanSketch.of(card)
        .step(s -> s.drive("D", 3).drive("LOAD", 0))
        .repeat(
            6,
            "words",
            r ->
                r.step(s -> s.drive("D", 5).drive("LOAD", 1))
                    .step(s -> s.drive("LOAD", 0))
                    .step(s -> s.each("D", Generators.random(4, 8, 5))))
        .plan();
  }

  @Test
  void whereItKeepsNothingItGoesOnAtTheFirstUnansweredVector() {
    assertThat(combinational().resumeAt(7)).isEqualTo(7);
  }

  @Test
  void aRegisterGoesOnAtTheLastStepThatLoadsItAndWasAnswered() {
    Plan plan = register();
    assertThat(plan.resumeAt(0)).isZero();
    assertThat(plan.resumeAt(1)).as("the loading step itself is unanswered").isZero();
    assertThat(plan.resumeAt(2)).as("loaded by vector 1").isEqualTo(1);
    assertThat(plan.resumeAt(10)).isEqualTo(1);
    assertThat(plan.resumeAt(12)).as("loaded again by vector 11").isEqualTo(11);
  }

  @Test
  void someMomentsOfAll() throws Exception {
    cutAtRandom(ALL_CUTS / 20);
  }

  @Test
  @Tag("long")
  void twoHundredMoments() throws Exception {
    cutAtRandom(ALL_CUTS);
  }

  private void cutAtRandom(int times) throws Exception {
    long seed = new Random().nextLong();
    System.out.println("lines cut at random, seed " + seed);
    BrokenRuns combinational = new BrokenRuns(combinational(), folder);
    BrokenRuns register = new BrokenRuns(register(), folder);
    for (int i = 0; i < times; i++) {
      (i % 2 == 0 ? register : combinational).cutAtRandom(seed + i);
    }
  }
}
