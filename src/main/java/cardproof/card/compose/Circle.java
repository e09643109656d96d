package cardproof.card.compose;

import cardproof.text.Position;
import java.util.List;

/**
 * A way by which a cable leads what a card does back into it with nothing on it that keeps a value.
 *
 * @param names of the buses in the order in which a change travels, the first repeated at the end
 * @param at the last cable on it
 */
public record Circle(List<String> names, Position at) {
  public Circle {
    names = List.copyOf(names);
  }
}
