package cardproof.card.wiring.review;

import java.util.List;

/**
 * Relays of which each moves the next, by name, in that order.
 *
 * @param relays empty where there are none
 */
public record Chain(List<String> relays) {
  public Chain {
    relays = List.copyOf(relays);
  }

  public int stages() {
    return relays.size();
  }

  /** {@code A[0] - C[1]}. */
  @Override
  public String toString() {
    return String.join(" - ", relays);
  }
}
