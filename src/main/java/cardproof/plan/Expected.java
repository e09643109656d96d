package cardproof.plan;

import cardproof.bits.Expression;

/**
 * What a bus, or one line of it, must come to, as written: a number, or an expression over the
 * card's names.
 */
public record Expected(Target target, Expression value) {
  public int busIndex() {
    return target.busIndex();
  }
}
