package cardproof.plan;

import cardproof.bits.Values;
import cardproof.card.BehaviourModel;
import java.util.ArrayList;
import java.util.List;

/**
 * Takes a card's behaviour through the settings of one vector. Settings that are a quiet window
 * apart find the card settled. Of nearer ones the card may take the one before the other, or see
 * only what is left of them: what it keeps is known only as far as it comes out the same whichever
 * way; tried are the order given, the order reversed, and the last alone.
 */
final class Course {
  private final BehaviourModel model;
  private long[] before;

  Course(BehaviourModel model, int buses) {
    this.model = model;
    this.before = new long[buses];
  }

  /**
   * @param level at the start
   * @param later what is driven after that
   * @throws cardproof.card.NeverRestsException when the behaviour does not come to rest
   */
  void take(long[] level, List<Moment> later, long quietUs) {
    List<long[]> near = new ArrayList<>(List.of(level));
    long lastUs = 0;
    for (Moment moment : later) {
      if (moment.atUs() - lastUs >= quietUs) {
        settle(near);
        near.clear();
      }
      near.add(moment.level());
      lastUs = moment.atUs();
    }
    settle(near);
  }

  private void settle(List<long[]> near) {
    long[] end = near.get(near.size() - 1);
    if (near.size() > 1) {
      Values start = model.kept();
      model.apply(end);
      Values alone = model.kept();
      model.restore(start);
      reversed(near).forEach(model::apply);
      Values backwards = model.kept();
      model.restore(start);
      near.forEach(model::apply);
      model.doubt(alone);
      model.doubt(backwards);
    }
    model.apply(end);
    before = end;
  }

  /** The same changes, the last first. */
  private List<long[]> reversed(List<long[]> near) {
    List<long[]> steps = new ArrayList<>();
    long[] at = before.clone();
    for (int i = near.size() - 1; i >= 0; i--) {
      long[] from = i == 0 ? before : near.get(i - 1);
      for (int b = 0; b < at.length; b++) {
        at[b] ^= near.get(i)[b] ^ from[b];
      }
      steps.add(at.clone());
    }
    return steps;
  }
}
