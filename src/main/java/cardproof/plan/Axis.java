package cardproof.plan;

import cardproof.card.Bus;
import cardproof.card.Card;
import java.util.List;
import java.util.function.Consumer;

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

  /** Sets joined buses to their parts of one wide word. */
  static void split(Card card, List<Integer> busIndexes, long joined, Consumer<Setting> to) {
    long word = joined;
    for (int j = busIndexes.size() - 1; j >= 0; j--) {
      Bus bus = card.buses().get(busIndexes.get(j));
      to.accept(Setting.to(busIndexes.get(j), word & bus.mask()));
      word = bus.width() == 64 ? 0 : word >>> bus.width();
    }
  }
}
