package cardproof.bits;

import java.math.BigInteger;
import java.util.Locale;

/**
 * Our expressions as IEEE 1364-2005 Verilog: the same tree with its leaves written the other way.
 * Operators, their order and every width but that of numbers are left to whoever reads the text.
 */
final class Verilog {
  /** A known bit, as wide as the narrowest operand. */
  private static final Term ZERO = new Term.Number("1'b0 ", BigInteger.ZERO, 1, false);

  private Verilog() {}

  static Term of(Term term) {
    return of(term, false);
  }

  /** A dot would lead into another module. */
  static String name(String line) {
    return line.replace('.', '_');
  }

  /**
   * @param places whether the term gives its width to a number of places, where the standard's own
   *     decimals, at least 32 bits wide, keep it from wrapping, and ours do with 64
   */
  private static Term of(Term term, boolean places) {
    if (term instanceof Term.Line line) {
      return of(line);
    }
    if (term instanceof Term.Number number) {
      int width = number.decimal() && places ? Words.MAX_WIDTH : number.width();
      return new Term.Number(sized(number.text(), width), number.value(), width, false);
    }
    if (term instanceof Term.Unknown unknown) {
      return new Term.Unknown(sized(unknown.text(), unknown.width()), unknown.width());
    }
    if (term instanceof Term.Before before) {
      return before(before, places);
    }
    if (term instanceof Term.Between between) {
      return between(between, places);
    }
    if (term instanceof Term.Choice choice) {
      return new Term.Choice(
          of(choice.condition()), of(choice.then(), places), of(choice.otherwise(), places));
    }
    if (term instanceof Term.Joined joined) {
      return new Term.Joined(joined.times(), joined.parts().stream().map(Verilog::of).toList());
    }
    if (term instanceof Term.Picked picked) {
      Term index = of(picked.index(), true);
      return new Term.Picked(of(picked.line()), index, picked.width(), picked.down());
    }
    if (term instanceof Term.Range range) {
      return new Term.Range(of(range.line()), range.high(), range.low());
    }
    throw new IllegalArgumentException(term.toString());
  }

  private static Term.Line of(Term.Line line) {
    return new Term.Line(name(line.name()), line.width());
  }

  private static Term before(Term.Before before, boolean places) {
    Term operand =
        switch (before.operator()) {
          case "+", "-", "~" -> of(before.operand(), places);
          default -> of(before.operand(), false);
        };
    if (before.operator().equals("+")) {
      // Clause 5.1.5 counts unary plus among the arithmetic operators, where one x makes the entire
      // result x; the simulator lets its operand through as it is. So a real sum is put below it.
      operand = new Term.Between(operand, "+", ZERO);
    }
    return new Term.Before(before.operator(), operand);
  }

  private static Term between(Term.Between between, boolean places) {
    boolean left;
    boolean right;
    switch (between.operator()) {
      case "&&", "||", "<", "<=", ">", ">=", "==", "!=", "===", "!==" -> {
        left = false;
        right = false;
      }
      case "<<", ">>", "<<<", ">>>", "**" -> {
        left = places;
        right = true;
      }
      default -> {
        left = places;
        right = places;
      }
    }
    return new Term.Between(
        of(between.left(), left), between.operator(), of(between.right(), right));
  }

  /** The same digits with a size; the space keeps a question mark after it from being a digit. */
  private static String sized(String text, int width) {
    String prefix = text.substring(0, Math.min(2, text.length())).toLowerCase(Locale.ROOT);
    return switch (prefix) {
      case "0x" -> width + "'h" + text.substring(2) + " ";
      case "0o" -> width + "'o" + text.substring(2) + " ";
      case "0b" -> width + "'b" + text.substring(2) + " ";
      default -> width + "'d" + text + " ";
    };
  }
}
