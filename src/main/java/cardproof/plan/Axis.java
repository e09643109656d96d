package cardproof.plan;

import java.util.List;

/**
 * One direction of an {@code each}: the buses and lines that take a generator's words, joined into
 * one wide word with the first one most significant.
 *
 * @param targets at least one; together at most 64 bits wide
 */
public record Axis(List<Target> targets, Generator generator) {
  public Axis {
    targets = List.copyOf(targets);
  }
}
