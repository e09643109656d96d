package cardproof.files;

import cardproof.plan.Target;
import java.util.HashMap;
import java.util.Map;

/** Sees to it that one step sets a bus, or a line of it, in one place only. */
final class DrivenOnce {
  private final PlanNames names;
  private final Problems problems;
  private final Map<Target, String> places = new HashMap<>();

  DrivenOnce(PlanNames names, Problems problems) {
    this.names = names;
    this.problems = problems;
  }

  /**
   * @param key of the step under which the name stands
   * @return whether the bus or line was free
   */
  boolean take(Target target, Node.Text name, String key) {
    for (Map.Entry<Target, String> taken : places.entrySet()) {
      if (names.overlap(taken.getKey(), target)) {
        problems.error(
            name.at(),
            "this step already sets " + names.of(taken.getKey()) + " by " + taken.getValue(),
            "one place that sets a " + (target.wholeBus() ? "bus" : "line") + " in a step",
            "Take one of them out, or make two steps of it");
        return false;
      }
    }
    places.put(target, "'" + key + "' in line " + name.at().line());
    return true;
  }
}
