package cardproof.card.wiring.review;

import cardproof.text.Position;

/**
 * A line as the wiring's review sees it, by the line's index.
 *
 * @param pin where it leaves the card, such as {@code J2.7}
 * @param driven whether a fixture may drive it
 * @param watched whether a fixture watches it
 * @param at where the card's file names it
 */
public record EdgeLine(String name, String pin, boolean driven, boolean watched, Position at) {
  String words() {
    return name + " (" + pin + ")";
  }
}
