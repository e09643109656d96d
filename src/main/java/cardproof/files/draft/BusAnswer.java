package cardproof.files.draft;

import cardproof.bits.Literal;
import cardproof.bits.LiteralException;
import cardproof.card.Bus;

/**
 * A bus or a state as answered: {@code D}, {@code D:12}, {@code D:12@J1.1-12}, {@code R:12=0}.
 * Nothing is judged here; an empty part was not given.
 *
 * @param width as written
 * @param pins as written
 * @param powerOn as written
 */
record BusAnswer(String name, String width, String pins, String powerOn) {
  static BusAnswer of(String answer, boolean state) {
    String rest = answer.strip();
    int mark = state ? rest.indexOf('=') : rest.indexOf('@');
    String behind = mark < 0 ? "" : rest.substring(mark + 1).strip();
    rest = mark < 0 ? rest : rest.substring(0, mark);
    int colon = rest.indexOf(':');
    String width = colon < 0 ? "" : rest.substring(colon + 1).strip();
    String name = (colon < 0 ? rest : rest.substring(0, colon)).strip();
    return new BusAnswer(name, width, state ? "" : behind, state ? behind : "");
  }

  /** How many lines, as far as that can be told; 1 where the width is no number. */
  int lines() {
    try {
      long lines = width.isEmpty() ? 1 : Literal.parse(width).value();
      return (int) Math.max(1, Math.min(Bus.WIDEST, lines));
    } catch (LiteralException noNumber) {
      return 1;
    }
  }
}
