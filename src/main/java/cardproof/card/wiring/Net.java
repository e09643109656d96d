package cardproof.card.wiring;

import cardproof.text.Position;

/**
 * Everything that is joined by solder and wire alone.
 *
 * @param name as the file has it, {@code BIT[3].odd} inside a block
 * @param at where it is first named
 */
public record Net(String name, Position at) {
  @Override
  public String toString() {
    return name;
  }
}
