package cardproof.plan;

import cardproof.text.Position;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * What is said of a step beside what it drives.
 *
 * @param tags words by which steps are chosen, those of the calls and groups around it included
 * @param sync what the author says of whether the step establishes the card's state
 * @param calledAt the calls it comes from, the innermost first; empty where none is
 */
public record Marks(Set<String> tags, Optional<Boolean> sync, List<Position> calledAt) {
  public static final Marks NONE = new Marks(Set.of(), Optional.empty(), List.of());

  public Marks {
    tags = Set.copyOf(tags);
    calledAt = List.copyOf(calledAt);
  }

  /** {@code plan.yaml:12, lib.yaml:7}: the calls it comes from; empty where it comes from none. */
  public String calledFrom() {
    return calledAt.stream().map(Position::fileAndLine).collect(Collectors.joining(", "));
  }

  /** {@code " (called at plan.yaml:12)"}, or empty: to follow the place of the step. */
  public String calls() {
    return calledAt.isEmpty() ? "" : " (called at " + calledFrom() + ")";
  }
}
