package cardproof.card.compose;

import cardproof.card.Card;

/**
 * One card of several that are a unit together. Two may be units of one design.
 *
 * @param name what the whole calls it; no two alike, and no dot in it
 */
public record Member(String name, Card card) {
  /** The name that something of this card has in the whole: {@code keep.R}. */
  String own(String inner) {
    return name + "." + inner;
  }
}
