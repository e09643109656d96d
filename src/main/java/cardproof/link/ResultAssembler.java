package cardproof.link;

import java.util.List;
import java.util.Optional;

/**
 * Puts the parts of one step's result together, in whatever order, size and number of repeats they
 * come. Not thread-safe.
 */
final class ResultAssembler {
  private final int number;
  private MovedWatch[] entries = {};
  private int missing = -1;

  ResultAssembler(int number) {
    this.number = number;
  }

  /**
   * Takes a part of the result of this step.
   *
   * @return the whole result, with this part's head, once all entries are there
   */
  Optional<Result> add(Result part) {
    if (part.number() != number) {
      throw new IllegalArgumentException("step " + part.number() + ", not " + number);
    }
    if (missing < 0 || entries.length != part.movedTotal()) {
      entries = new MovedWatch[part.movedTotal()];
      missing = entries.length;
    }
    int at = part.firstEntry();
    for (MovedWatch moved : part.moved()) {
      missing -= entries[at] == null ? 1 : 0;
      entries[at++] = moved;
    }
    if (missing > 0) {
      return Optional.empty();
    }
    return Optional.of(part.withEntries(entries.length, 0, List.of(entries)));
  }
}
