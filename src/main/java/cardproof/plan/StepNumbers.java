package cardproof.plan;

import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;

/** Numbers a plan's pattern steps in the order in which they are written. */
public final class StepNumbers {
  private StepNumbers() {}

  /** Numbers from 0, by identity. */
  public static Map<PatternStep, Integer> of(List<Step> steps) {
    Map<PatternStep, Integer> numbers = new IdentityHashMap<>();
    collect(steps, numbers);
    return numbers;
  }

  private static void collect(List<Step> steps, Map<PatternStep, Integer> numbers) {
    for (Step step : steps) {
      if (step instanceof RepeatStep repeat) {
        collect(repeat.steps(), numbers);
      } else {
        numbers.putIfAbsent((PatternStep) step, numbers.size());
      }
    }
  }
}
