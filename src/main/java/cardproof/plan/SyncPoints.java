package cardproof.plan;

import cardproof.card.BehaviourModel;
import cardproof.card.Card;
import cardproof.card.NeverRestsException;
import cardproof.text.Problem;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/**
 * The steps of a plan after whose last vector everything the card keeps is known, whatever it was
 * before: where a run that lost its way may be taken up again. Immutable.
 *
 * <p>It is found by taking the last patterns of a step through the card's behaviour from states of
 * which nothing is known; unknown bits stand for both values, so what comes out as known is. A step
 * inside a group must do it both in the first pass and in those after, which start from other
 * drives. What only comes about over more than {@value #MOST_PATTERNS} patterns is not found.
 */
public final class SyncPoints {
  private static final long MOST_PATTERNS = 256;
  private static final long MOST_VECTORS = 1_000_000;

  private final Card card;
  private final VectorSource source;
  private final BehaviourModel model;
  private final Map<PatternStep, List<String>> unknown = new IdentityHashMap<>();
  private long vectors;

  private SyncPoints(Plan plan) {
    this.card = plan.card();
    this.source = plan.vectors();
    this.model = card.behaviour().isPresent() ? new BehaviourModel(card) : null;
    if (model != null) {
      walk(plan.steps());
    }
    if (spent()) {
      unknown.clear();
    }
  }

  static SyncPoints of(Plan plan) {
    return new SyncPoints(plan);
  }

  /** Whether a step establishes the card's state: as its author says, else by the behaviour. */
  public boolean establishes(PatternStep step) {
    return step.marks().sync().orElseGet(() -> byBehaviour(step));
  }

  /** Whether it does so by the card's behaviour, whatever its author says. */
  public boolean byBehaviour(PatternStep step) {
    return step.power().isEmpty() && unknown.containsKey(step) && unknown.get(step).isEmpty();
  }

  /** Steps whose author says that they establish the state, and the behaviour does not bear out. */
  List<Problem> warnings() {
    return unknown.entrySet().stream()
        .filter(entry -> !entry.getValue().isEmpty())
        .filter(entry -> entry.getKey().marks().sync().orElse(false))
        .sorted(Map.Entry.comparingByKey((a, b) -> a.at().compareTo(b.at())))
        .map(entry -> warning(entry.getKey(), entry.getValue()))
        .distinct()
        .toList();
  }

  private static Problem warning(PatternStep step, List<String> states) {
    return Problem.at(
        step.at(),
        "by the card's behaviour this step leaves open what is in "
            + String.join(", ", states)
            + ", though it says sync: true"
            + step.marks().calls(),
        "",
        "Drive it to one known state, or take 'sync' out");
  }

  private boolean spent() {
    return vectors > MOST_VECTORS;
  }

  private void walk(List<Step> steps) {
    for (Step step : steps) {
      if (spent()) {
        return;
      }
      if (step instanceof RepeatStep repeat) {
        walk(repeat.steps());
        // from the second pass on each starts from the drives that the one before it leaves
        if (repeat.times() > 1) {
          walk(repeat.steps());
        }
      } else {
        PatternStep pattern = (PatternStep) step;
        List<String> left = unknownAfter(pattern);
        unknown.merge(pattern, left, SyncPoints::union);
      }
    }
  }

  private static List<String> union(List<String> one, List<String> other) {
    return Stream.concat(one.stream(), other.stream()).distinct().toList();
  }

  /** States that are not known after a step; the last of its patterns alone may do for all. */
  private List<String> unknownAfter(PatternStep step) {
    if (step.sweep().isPresent()) {
      model.forget();
      return model.unknownStates(); // what its last trial leaves is what it was to find out
    }
    List<String> left = List.of();
    for (long patterns = 1; ; patterns = Math.min(MOST_PATTERNS, patterns * 16)) {
      long from = Math.max(0, step.patternCount() - patterns);
      left = unknownAfter(step, from * step.vectorsPerPattern());
      if (left.isEmpty() || from == 0 || patterns == MOST_PATTERNS) {
        return left;
      }
    }
  }

  private List<String> unknownAfter(PatternStep step, long from) {
    model.forget();
    try {
      for (long index = from; index < step.vectorCount(); index++) {
        vectors++;
        model.apply(source.drive(step, index));
      }
      return model.unknownStates();
    } catch (NeverRestsException loop) {
      return loop.loop();
    }
  }
}
