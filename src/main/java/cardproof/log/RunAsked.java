package cardproof.log;

import java.util.List;
import java.util.Optional;

/**
 * What was asked for of a plan, so that a run can be continued as it was begun.
 *
 * @param only words that chose steps; empty for all
 * @param skip words that left steps out
 * @param continues the run before, where there is one
 */
public record RunAsked(List<String> only, List<String> skip, Optional<Continues> continues) {
  public RunAsked {
    only = List.copyOf(only);
    skip = List.copyOf(skip);
  }

  /** The whole plan, from its first vector. */
  public static RunAsked wholePlan() {
    return new RunAsked(List.of(), List.of(), Optional.empty());
  }
}
