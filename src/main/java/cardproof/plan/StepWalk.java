package cardproof.plan;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Optional;

/** Walks through nested steps and names the place of every vector. */
final class StepWalk {
  /**
   * Where a vector stands.
   *
   * @param stepNumber in the order in which pattern steps are written, from 0
   * @param indexInPass within one going through of its step
   * @param index within its step, over all repeats
   */
  record Place(PatternStep step, int stepNumber, long indexInPass, long index) {}

  private static final class Level {
    private final List<Step> steps;
    private long passesLeft;
    private int position;

    Level(List<Step> steps, long passes) {
      this.steps = steps;
      this.passesLeft = passes;
    }
  }

  private final Deque<Level> levels = new ArrayDeque<>();
  private final Map<PatternStep, Integer> numbers;
  private final long[] passes;
  private PatternStep step;
  private long indexInPass;

  StepWalk(List<Step> steps) {
    this.numbers = StepNumbers.of(steps);
    this.passes = new long[numbers.size()];
    levels.push(new Level(steps, 1));
    settle();
  }

  boolean hasNext() {
    return step != null;
  }

  Place next() {
    if (step == null) {
      throw new NoSuchElementException();
    }
    Place place = place();
    int number = place.stepNumber();
    indexInPass++;
    if (indexInPass == step.vectorCount()) {
      passes[number]++;
      step = null;
      settle();
    }
    return place;
  }

  /** What {@link #next} would give; empty at the end. */
  Optional<Place> peek() {
    return step == null ? Optional.empty() : Optional.of(place());
  }

  private Place place() {
    int number = numbers.get(step);
    return new Place(step, number, indexInPass, passes[number] * step.vectorCount() + indexInPass);
  }

  /** Moves on to the next pattern step, or to the end. */
  private void settle() {
    indexInPass = 0;
    while (step == null && !levels.isEmpty()) {
      Level level = levels.peek();
      if (level.position == level.steps.size()) {
        level.passesLeft--;
        level.position = 0;
        if (level.passesLeft == 0 || level.steps.isEmpty()) {
          levels.pop();
        }
      } else {
        Step next = level.steps.get(level.position++);
        if (next instanceof RepeatStep repeat) {
          levels.push(new Level(repeat.steps(), repeat.times()));
        } else {
          step = (PatternStep) next;
        }
      }
    }
  }
}
