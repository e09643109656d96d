package cardproof.cli;

import cardproof.card.Card;
import cardproof.card.wiring.review.Review;
import cardproof.fixture.DriveCurrents;
import cardproof.fixture.FixtureFit;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.HookUp;
import cardproof.plan.Plan;
import cardproof.plan.PlanCheck;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.util.List;
import java.util.Optional;

/** Goes through a plan before anything is driven, with progress where that takes long. */
final class PlanChecking {
  private PlanChecking() {}

  /**
   * @param review of the card's wiring, where that is known
   * @throws RefusedException where the plan cannot be, or asks too much of the fixture's drives
   */
  static PlanCheck check(Plan plan, HookUp hookUp, Optional<Review> review, Screen screen) {
    Progress progress =
        new Progress(screen, System::nanoTime, "vectors looked through", plan.vectorCount());
    DriveCurrents currents = new DriveCurrents(hookUp, review.map(Review::loads).orElse(List.of()));
    PlanCheck check =
        PlanCheck.of(
            plan,
            done -> progress.at(done, ""),
            vector -> currents.take(vector.level(), vector.enabled(), vector::origin));
    progress.done();
    List<Problem> problems = currents.problems();
    if (!problems.isEmpty()) {
      throw new RefusedException(problems);
    }
    return check;
  }

  /** What is wrong with card and fixture together, before any plan. */
  static List<Problem> fit(Card card, FixtureProfile profile) {
    FixtureFit fit = FixtureFit.of(card, profile);
    fit.refuseIfWrong();
    return fit.warnings();
  }
}
