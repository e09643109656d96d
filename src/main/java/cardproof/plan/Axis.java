package cardproof.plan;

import cardproof.card.Card;
import java.util.List;
import java.util.function.Consumer;

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

  /** Sets joined buses and lines to their parts of one wide word. */
  static void split(Card card, List<Target> targets, long joined, Consumer<Setting> to) {
    long word = joined;
    for (int j = targets.size() - 1; j >= 0; j--) {
      Target target = targets.get(j);
      int width = target.width(card);
      to.accept(target.to(word & (-1L >>> (Long.SIZE - width))));
      word = width == Long.SIZE ? 0 : word >>> width;
    }
  }
}
