package cardproof.cli;

import cardproof.plan.Plan;
import cardproof.plan.PlanCheck;

/** Goes through a plan before anything is driven, with progress where that takes long. */
final class PlanChecking {
  private PlanChecking() {}

  static PlanCheck check(Plan plan, Screen screen) {
    Progress progress =
        new Progress(screen, System::nanoTime, "vectors looked through", plan.vectorCount());
    PlanCheck check = PlanCheck.of(plan, done -> progress.at(done, ""));
    progress.done();
    return check;
  }
}
