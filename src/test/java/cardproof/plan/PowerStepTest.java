package cardproof.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What a step that switches the supply does to drives and expectations. */
class PowerStepTest {
  private static final String CARD =
      """
      card: keep
      supply: {voltage: 12 V, limit: 1 A}
      inputs: {D: {width: 4, at: J1.1-4}, LD: {at: J1.5}}
      outputs: {Q: {width: 4, at: J2.1-4}}
      state: {R: {width: 4, next: "LD ? D : R"%s}}
      behaviour: {Q: R}
      limits: {settle: 100 ms}
      relays: {unseen-stages: 1, operate: 15 ms, release: 18 ms, bounce: 8 ms}
      """;
  private static final String STEPS =
      """
        - {drive: {D: 5}, pulse: {LD: 1}}
        - power: off
        - drive: {D: 3}
        - {power: on, wait: 20 ms}
        - {drive: {D: 6}, pulse: {LD: 1}}
      """;
  private static final int Q = 2;

  private static Plan plan(String powerOn) {
    return TestPlans.read(CARD.formatted(powerOn), STEPS);
  }

  private static List<Vector> vectors(Plan plan) {
    List<Vector> all = new ArrayList<>();
    plan.vectors().forEachRemaining(all::add);
    return all;
  }

  @Test
  void everythingIsReleasedAndHasToBeDownAndTheStateIsLost() {
    List<Vector> all = vectors(plan(""));
    assertThat(all).hasSize(9);
    assertThat(all)
        .extracting(v -> v.care()[Q])
        .containsExactly(0L, 15L, 15L, 15L, 15L, 0L, 0L, 15L, 15L);
    assertThat(all)
        .extracting(v -> v.expect()[Q])
        .containsExactly(0L, 5L, 5L, 0L, 0L, 0L, 0L, 6L, 6L);
    assertThat(all.get(3).enabled()).containsExactly(0, 0, 0);
    assertThat(all.get(3).step().power()).contains(new Power(false, all.get(3).timing().watchUs()));
    assertThat(all.get(5).step().power()).contains(new Power(true, 20_000));
    assertThat(all.get(4).step().power()).isEmpty();
  }

  @Test
  void whatTheFileSaysOfPowerOnHolds() {
    List<Vector> all = vectors(plan(", power-on: 0"));
    assertThat(all.get(5).care()[Q]).isEqualTo(15);
    assertThat(all.get(5).expect()[Q]).isZero();
  }

  @Test
  void takenAgainAfterAFailureItComesToTheSame() {
    Prediction after = new Prediction(plan("").card());
    List<Vector> all = vectors(plan(""));
    List<Long> care = new ArrayList<>();
    all.forEach(v -> care.add(after.again(v).care()[Q]));
    assertThat(care).containsExactly(0L, 15L, 15L, 15L, 15L, 0L, 0L, 15L, 15L);
  }

  /** A card that keeps nothing is taken up anywhere, but for where the supply is off. */
  @Test
  void aCardThatKeepsNothingGoesBackToWhereTheSupplyWasSwitchedOff() {
    String gates =
        """
        card: gates
        supply: {voltage: 12 V, limit: 1 A}
        inputs: {D: {width: 4, at: J1.1-4}}
        outputs: {Q: {width: 4, at: J2.1-4}}
        behaviour: {Q: D}
        limits: {settle: 100 ms}
        relays: {unseen-stages: 1, operate: 15 ms, release: 18 ms, bounce: 8 ms}
        """;
    Plan plan =
        TestPlans.read(
            gates,
            """
              - {drive: {D: 5}}
              - power: off
              - drive: {D: 3}
              - drive: {D: 4}
              - power: on
              - drive: {D: 6}
              - drive: {D: 7}
            """);
    assertThat(plan.resumeAt(1)).isEqualTo(1);
    assertThat(plan.resumeAt(2)).isEqualTo(1);
    assertThat(plan.resumeAt(4)).isEqualTo(1);
    assertThat(plan.resumeAt(5)).isEqualTo(5);
    assertThat(plan.resumeAt(6)).isEqualTo(6);
  }

  @Test
  void aRunIsNotTakenUpWhereTheSupplyIsOff() {
    Plan plan = plan("");
    assertThat(plan.resumeAt(2)).isZero();
    // the word of the first step is known at 3, but from 3 to 4 the supply is off
    assertThat(plan.resumeAt(4)).isLessThanOrEqualTo(3);
    assertThat(plan.resumeAt(5)).isLessThanOrEqualTo(3);
    assertThat(plan.firstPower()).isPresent();
  }
}
