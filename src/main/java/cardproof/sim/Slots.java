package cardproof.sim;

import cardproof.link.Result;
import cardproof.link.Step;
import cardproof.link.Switching;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * The steps and results that a fixture keeps: step n in slot n mod K, empty, queued, running or
 * done, with the three counters of {@code firmware-notes/protocol.md}, section 3. Numbers are
 * unsigned.
 */
final class Slots {
  private enum Use {
    EMPTY,
    QUEUED,
    RUNNING,
    DONE
  }

  private final Use[] use;
  private final Step[] steps;
  private final Result[] results;

  /** Of the one sequence that there may be. */
  private List<Switching> entries = List.of();

  private boolean alone;
  private int next;
  private int finished;
  private int acked;

  Slots(int count) {
    this.use = new Use[count];
    this.steps = new Step[count];
    this.results = new Result[count];
    clear();
  }

  int count() {
    return use.length;
  }

  void clear() {
    Arrays.fill(use, Use.EMPTY);
    Arrays.fill(steps, null);
    Arrays.fill(results, null);
    entries = List.of();
    alone = false;
    next = 0;
    finished = 0;
    acked = 0;
  }

  /** The step that is accepted next. */
  int next() {
    return next;
  }

  /** The first step without a result. */
  int finished() {
    return finished;
  }

  /** The first step that was not acknowledged. */
  int acked() {
    return acked;
  }

  boolean hasRoom() {
    return use[slot(next)] == Use.EMPTY;
  }

  /** Whether a step is queued or running. */
  boolean isBusy() {
    return finished != next;
  }

  /** Whether the step that is queued or running is one past which nothing is taken. */
  boolean isTakenAlone() {
    return isBusy() && alone;
  }

  /**
   * Takes step {@link #next}, for which there must be room.
   *
   * @param later what its drives become in the course of it
   */
  void queue(Step step, List<Switching> later) {
    expect(step.number() == next && hasRoom());
    alone = step.capture() || !later.isEmpty();
    expect(!alone || !isBusy());
    entries = later;
    use[slot(next)] = Use.QUEUED;
    steps[slot(next)] = step;
    next++;
  }

  boolean hasQueued() {
    return use[slot(finished)] == Use.QUEUED;
  }

  /** The first queued step, which is running from now on. */
  Step start() {
    expect(hasQueued());
    use[slot(finished)] = Use.RUNNING;
    return steps[slot(finished)];
  }

  /** What the drives become in the course of the step that runs, or is the only one queued. */
  List<Switching> entries() {
    return entries;
  }

  /** The running step has ended; its result takes its place. */
  void finish(Result result) {
    int slot = slot(finished);
    expect(use[slot] == Use.RUNNING && result.number() == finished);
    use[slot] = Use.DONE;
    steps[slot] = null;
    results[slot] = result;
    finished++;
  }

  /** Empties all slots below {@code ack}, which must not be above {@link #finished}. */
  void acknowledge(int ack) {
    expect(Integer.compareUnsigned(ack, finished) <= 0);
    while (Integer.compareUnsigned(acked, ack) < 0) {
      use[slot(acked)] = Use.EMPTY;
      results[slot(acked)] = null;
      acked++;
    }
  }

  /** The result of a step, where it is there and not yet acknowledged. */
  Optional<Result> result(int number) {
    Result there = results[slot(number)];
    return there != null && there.number() == number ? Optional.of(there) : Optional.empty();
  }

  private int slot(int number) {
    return Integer.remainderUnsigned(number, use.length);
  }

  private static void expect(boolean holds) {
    if (!holds) {
      throw new IllegalStateException("a slot was used out of turn");
    }
  }
}
