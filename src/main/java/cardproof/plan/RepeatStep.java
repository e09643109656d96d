package cardproof.plan;

import cardproof.text.Position;
import java.util.List;
import java.util.Set;

/**
 * Steps gone through several times.
 *
 * @param tags of the group itself, which its steps have too
 */
public record RepeatStep(Position at, String title, long times, List<Step> steps, Set<String> tags)
    implements Step {
  public RepeatStep {
    steps = List.copyOf(steps);
    tags = Set.copyOf(tags);
  }

  @Override
  public long vectorCount() {
    return Counts.times(times, Counts.sum(steps));
  }
}
