package cardproof.plan;

import cardproof.card.Card;
import cardproof.text.Position;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** What to apply to a card, in order. */
public record Plan(String title, Card card, List<Step> steps, Position at) {
  public Plan {
    steps = List.copyOf(steps);
  }

  public long vectorCount() {
    return Counts.sum(steps);
  }

  /**
   * The vectors, made one at a time.
   *
   * @throws cardproof.text.RefusedException from {@code next()} where a vector cannot be: a
   *     behaviour that never rests, an exclusive bus driven from both ends
   */
  public VectorSource vectors() {
    return new VectorSource(this);
  }

  /** The first step that switches the card's supply; empty where none does. */
  public Optional<PatternStep> firstPower() {
    return patternsOf(steps).filter(step -> step.power().isPresent()).findFirst();
  }

  private static Stream<PatternStep> patternsOf(List<Step> among) {
    return among.stream()
        .flatMap(
            step ->
                step instanceof RepeatStep repeat
                    ? patternsOf(repeat.steps())
                    : Stream.of((PatternStep) step));
  }

  /** The steps that sweep, in the order in which they are written. */
  public List<PatternStep> sweeps() {
    return patternsOf(steps).filter(step -> step.sweep().isPresent()).toList();
  }

  /** Vectors of all sweeps, as often as they are gone through. */
  public long sweepVectors() {
    return sweepVectors(steps);
  }

  private static long sweepVectors(List<Step> among) {
    long vectors = 0;
    for (Step step : among) {
      if (step instanceof RepeatStep repeat) {
        vectors += Counts.times(repeat.times(), sweepVectors(repeat.steps()));
      } else if (((PatternStep) step).sweep().isPresent()) {
        vectors += step.vectorCount();
      }
    }
    return vectors;
  }

  /** The step that switches most often within one vector; empty where none does. */
  public Optional<PatternStep> longestSequence() {
    return longest(steps);
  }

  private static Optional<PatternStep> longest(List<Step> among) {
    return among.stream()
        .flatMap(step -> patterns(step).stream())
        .filter(step -> step.switches() > 0)
        .max(Comparator.comparingInt(PatternStep::switches));
  }

  private static Optional<PatternStep> patterns(Step step) {
    return step instanceof RepeatStep repeat
        ? longest(repeat.steps())
        : Optional.of((PatternStep) step);
  }

  /** Which of its steps establish what the card keeps. */
  public SyncPoints syncPoints() {
    return SyncPoints.of(this);
  }

  /**
   * Where a run that ended before a vector is to be taken up again.
   *
   * @param unanswered number of the first vector without a verdict
   * @return number of the first vector to apply; at most {@code unanswered}
   */
  public long resumeAt(long unanswered) {
    return ResumePoint.of(this, unanswered);
  }

  /** The same plan with only the steps that a filter keeps. */
  public Plan only(StepFilter filter) {
    return new Plan(title, card, filter.keep(steps), at);
  }
}
