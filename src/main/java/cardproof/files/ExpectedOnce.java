package cardproof.files;

import cardproof.plan.Target;
import java.util.ArrayList;
import java.util.List;

/** Sees to it that one step expects something of a bus, or a line of it, in one place only. */
final class ExpectedOnce {
  private final PlanNames names;
  private final Problems problems;
  private final List<Target> seen = new ArrayList<>();

  ExpectedOnce(PlanNames names, Problems problems) {
    this.names = names;
    this.problems = problems;
  }

  /** What is expected already, and nobody has to be told of. */
  void add(Target target) {
    seen.add(target);
  }

  /** Whether nothing was expected of it; says so where something was. */
  boolean take(Target target, Node.Text name) {
    for (Target other : seen) {
      if (names.overlap(other, target)) {
        problems.error(
            name.at(),
            "this step already expects something of " + names.of(other),
            "one place that expects it",
            "");
        return false;
      }
    }
    seen.add(target);
    return true;
  }
}
