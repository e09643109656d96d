package cardproof.files;

import java.util.HashMap;
import java.util.Map;

/** Sees to it that one step sets a bus in one place only. */
final class DrivenOnce {
  private final Problems problems;
  private final Map<Integer, String> places = new HashMap<>();

  DrivenOnce(Problems problems) {
    this.problems = problems;
  }

  /**
   * @param place the key of the step, with its line
   * @return whether the bus was free
   */
  boolean take(int busIndex, Node.Text name, String key) {
    String place = "'" + key + "' in line " + name.at().line();
    String first = places.putIfAbsent(busIndex, place);
    if (first != null) {
      problems.error(
          name.at(),
          "this step already sets bus " + name.described() + " by " + first,
          "one place that sets a bus in a step",
          "Take one of them out, or make two steps of it");
    }
    return first == null;
  }
}
