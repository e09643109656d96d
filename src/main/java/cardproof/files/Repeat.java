package cardproof.files;

import java.util.List;
import java.util.function.Consumer;

/**
 * What {@code for:} says: names that run over numbers, the last one fastest.
 *
 * @param loops none where there is no repeat, which stands for once
 */
record Repeat(List<Loop> loops) {
  static final Repeat ONCE = new Repeat(List.of());

  /** A name that runs from a number to another, both included. */
  record Loop(String name, long from, long to) {
    long count() {
      return to - from + 1;
    }
  }

  List<String> names() {
    return loops.stream().map(Loop::name).toList();
  }

  /** How often; {@code Long.MAX_VALUE} where that is more than can be counted. */
  long count() {
    long count = 1;
    for (Loop loop : loops) {
      try {
        count = Math.multiplyExact(count, loop.count());
      } catch (ArithmeticException tooMany) {
        return Long.MAX_VALUE;
      }
    }
    return count;
  }

  /** Goes through all values; what it hands over is the same object each time. */
  void forEach(Consumer<RepeatValues> step) {
    RepeatValues values = new RepeatValues(names());
    run(0, values, step);
  }

  private void run(int depth, RepeatValues values, Consumer<RepeatValues> step) {
    if (depth == loops.size()) {
      step.accept(values);
      return;
    }
    Loop loop = loops.get(depth);
    for (long value = loop.from(); value <= loop.to(); value++) {
      values.set(depth, value);
      run(depth + 1, values, step);
    }
  }
}
