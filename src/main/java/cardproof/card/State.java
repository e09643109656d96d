package cardproof.card;

import cardproof.bits.Expression;
import cardproof.bits.Literal;
import cardproof.text.Position;

/**
 * Something a card keeps: a register, a latch.
 *
 * @param powerOn its bits when power has just come on; x where that cannot be known
 * @param next its next value, taken again and again until nothing changes
 */
public record State(String name, int width, Literal powerOn, Expression next, Position at) {
  public long mask() {
    return -1L >>> (64 - width);
  }
}
