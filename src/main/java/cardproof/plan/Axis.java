package cardproof.plan;

import java.util.List;

/**
 * One direction of an {@code each}: the buses that take a generator's words, joined into one wide
 * word with the first bus most significant.
 *
 * @param busIndexes at least one; together at most 64 bits wide
 */
public record Axis(List<Integer> busIndexes, Generator generator) {
  public Axis {
    busIndexes = List.copyOf(busIndexes);
  }
}
