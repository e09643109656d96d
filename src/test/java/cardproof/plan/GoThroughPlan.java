package cardproof.plan;

import cardproof.card.Card;
import cardproof.card.TestCards;

/** Makes so many vectors of a card with a state and prints how many came; for a small heap. */
final class GoThroughPlan {
  private GoThroughPlan() {}

  public static void main(String[] arguments) {
    System.out.println(PlanCheck.of(plan(Long.parseLong(arguments[0])), done -> {}).vectors());
  }

  /** A plan of {@code vectors} vectors, a multiple of 1000. */
  static Plan plan(long vectors) {
    Card card =
        TestCards.card()
            .input("D", 12)
            .input("LD", 1)
            .output("Q", 12, "R")
            .state("R", 12, "0", "LD ? D : R")
            .build();
    return PlanSketch.of(card)
        .repeat(vectors / 1000, "many", r -> r.step(s -> s.each("D LD", words())))
        .plan();
  }

  private static Generator words() {
    return Generators.random(13, 1000, 3);
  }
}
