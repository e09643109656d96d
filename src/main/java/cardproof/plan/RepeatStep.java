package cardproof.plan;

import cardproof.text.Position;
import java.util.List;

/** Steps gone through several times. */
public record RepeatStep(Position at, String title, long times, List<Step> steps) implements Step {
  public RepeatStep {
    steps = List.copyOf(steps);
  }

  @Override
  public long vectorCount() {
    return Counts.times(times, Counts.sum(steps));
  }
}
