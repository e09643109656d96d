package cardproof.plan;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** Figures worked out by hand. */
class PlanCostTest {
  /** Silent chain 2 x (10 + 5) = 30 ms, quiet floor and window 37.5 ms, watch 137.5 ms. */
  private static final String CARD =
      """
      card: latch
      title: a word that is taken while LD is 1
      supply: {voltage: 12 V, limit: 1 A}
      inputs:
        A: {width: 2, at: J1.1-2}
        LD: {at: J1.3}
      outputs:
        Q: {width: 2, at: J2.1-2}
      shared:
        D: {width: 2, at: J3.1-2}
      state:
        R: {width: 2, power-on: 0, next: "LD ? A : R"}
      behaviour:
        Q: R
        D: "0"
      limits: {settle: 100 ms, hold: 300 ms}
      relays: {unseen-stages: 2, operate: 10 ms, release: 8 ms, bounce: 5 ms}
      """;

  private static PlanCost cost(String steps) {
    return TestPlans.check(TestPlans.read(CARD, steps)).cost();
  }

  @Test
  void aVectorTakesAQuietWindowAndOneChainWhereTheCardMoves() {
    PlanCost cost =
        cost(
            """
              - title: put a word in
                drive: {A: 3, LD: 0}
                pulse: {LD: 1}
            """);
    // pattern: an audit; pulse on: Q changes; pulse off: nothing does
    assertThat(cost.silentChainUs()).isEqualTo(30_000);
    assertThat(cost.audits()).isEqualTo(1);
    assertThat(cost.expectedUs()).isEqualTo(137_500 + (30_000 + 37_500) + 37_500);
    assertThat(cost.atMostUs()).isEqualTo(3 * 137_500);
  }

  @Test
  void linesThatTheFixtureItselfMovesDoNotKeepAVectorWaiting() {
    PlanCost cost =
        cost(
            """
              - title: only the bus moves
                each: {D: [0, 3, 1]}
            """);
    assertThat(cost.expectedUs()).isEqualTo(137_500 + 2 * 37_500);
  }

  @Test
  void auditsAreTheFirstOfEachStepAndEveryTwentieth() {
    assertThat(
            cost("  - each: {A: {range: 0..3}}\n  - each: {A: {random: 37, seed: 1}}\n").audits())
        .as("vectors 0, 4, 20 and 40")
        .isEqualTo(4);
  }

  @Test
  void switchingIsCountedFromNothingToNothing() {
    PlanCost cost =
        cost(
            """
              - drive: {A: 1, LD: 0}
                pulse: {LD: 1}
              - repeat: 3
                steps:
                  - pulse: {LD: 1}
              - drive: {A: 2}
            """);
    assertThat(cost.drives().stream().map(c -> c.line() + " " + c.changes()))
        .containsExactly("A[0] 2", "A[1] 2", "LD 8", "D[0] 0", "D[1] 0");
    assertThat(cost.driveChanges()).isEqualTo(12);
    assertThat(cost.busiest().orElseThrow().line().name()).isEqualTo("LD");
  }

  @Test
  void vectorsThatDriveTheSameLinesHoldOnePattern() {
    PlanCost cost =
        cost(
            """
              - drive: {A: 0, LD: 0}
              - drive: {A: 0}
              - drive: {A: 0}
              - drive: {A: 0}
              - drive: {A: 1}
              - drive: {A: 2}
              - drive: {LD: 0}
              - drive: {D: 0}
              - drive: {A: 3}
            """);
    LongestHold hold = cost.longestHold().orElseThrow();
    assertThat(hold.firstVector()).as("four vectors that drive nothing do not count").isEqualTo(5);
    assertThat(hold.vectors()).isEqualTo(3);
    assertThat(hold.at()).endsWith("plan.yaml:9#1");
    assertThat(hold.atMostUs()).isEqualTo(3 * 137_500);
  }

  @Test
  void aPlanThatDrivesNothingHoldsNothing() {
    PlanCost cost = cost("  - drive: {A: 0, LD: 0}\n");
    assertThat(cost.longestHold()).isEmpty();
    assertThat(cost.busiest()).isEmpty();
  }
}
