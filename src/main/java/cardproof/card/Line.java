package cardproof.card;

/**
 * One wire of a card.
 *
 * @param index over all lines of the card, buses in the card's order, bit 0 first
 * @param busIndex position of its bus in {@link Card#buses}
 */
public record Line(int index, Bus bus, int busIndex, int bit) {
  public String name() {
    return bus.lineName(bit);
  }

  public String label() {
    return bus.label(bit);
  }

  public Pin pin() {
    return bus.pins().get(bit);
  }

  @Override
  public String toString() {
    return name();
  }
}
