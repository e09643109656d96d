package cardproof.plan;

import cardproof.card.Card;
import java.util.Optional;

/**
 * Finds where a run that ended early is taken up again. A card whose behaviour keeps nothing is
 * taken up at the first vector without a verdict. Any other has lost its state with the drives: it
 * is taken up where the last step begins that establishes the state and was answered to its end, so
 * that of the vector in question as much is known as in a run that was never broken. Where there is
 * none, at the plan's beginning.
 */
final class ResumePoint {
  private ResumePoint() {}

  static long of(Plan plan, long unanswered) {
    return powered(plan, established(plan, unanswered));
  }

  /** A run begins with the supply on: where it is off then, with the step that switches it off. */
  private static long powered(Plan plan, long from) {
    StepWalk walk = new StepWalk(plan.steps());
    long off = -1;
    for (long number = 0; number < from && walk.hasNext(); number++) {
      Optional<Power> power = walk.next().step().power();
      if (power.isPresent()) {
        off = power.get().on() ? -1 : number;
      }
    }
    return off >= 0 ? off : from;
  }

  private static long established(Plan plan, long unanswered) {
    Card card = plan.card();
    if (card.behaviour().isPresent() && !card.hasState()) {
      return unanswered;
    }
    SyncPoints sync = plan.syncPoints();
    StepWalk walk = new StepWalk(plan.steps());
    long from = 0;
    long passStart = 0;
    for (long number = 0; number < unanswered && walk.hasNext(); number++) {
      StepWalk.Place place = walk.next();
      if (place.indexInPass() == 0) {
        passStart = number;
      }
      boolean last = place.indexInPass() == place.step().vectorCount() - 1;
      if (last && sync.establishes(place.step())) {
        from = passStart;
      }
    }
    return from;
  }
}
