package cardproof.plan;

import cardproof.bits.Expression;

/** What a bus must come to, as written: a number, or an expression over the card's names. */
public record Expected(int busIndex, Expression value) {}
