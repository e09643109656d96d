package cardproof.card.fault;

import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.text.Nearest;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * The grammar of fault names.
 *
 * <pre>
 *   LINE stuck at ground
 *   LINE stuck at supply
 *   LINE exchanged with LINE
 * </pre>
 *
 * where LINE is a line's name ({@code S[3]}, {@code CI}) or its printed label. Case and the amount
 * of white space between words do not matter outside names.
 */
public final class FaultNames {
  static final String STUCK_AT = " stuck at ";
  static final String EXCHANGED_WITH = " exchanged with ";
  static final String GROUND = "ground";
  static final String SUPPLY = "supply";
  private static final String FORMS =
      "'S[3] stuck at ground', 'S[3] stuck at supply' or 'A[2] exchanged with A[3]'";

  private FaultNames() {}

  /**
   * @throws RefusedException when the name does not parse or a line does not exist; says what was
   *     wanted and the nearest known line
   */
  public static Fault parse(String text, Card card) {
    String name = text.strip().replaceAll("\\s+", " ");
    int stuck = find(name, STUCK_AT);
    if (stuck > 0) {
      Line line = line(name.substring(0, stuck), text, card);
      String level = name.substring(stuck + STUCK_AT.length());
      if (level.equalsIgnoreCase(GROUND) || level.equalsIgnoreCase(SUPPLY)) {
        return new LineStuck(line, level.equalsIgnoreCase(SUPPLY));
      }
      throw refused(
          text,
          "a line cannot be stuck at '" + level + "'",
          "'ground' or 'supply'",
          Nearest.hint(level, List.of(GROUND, SUPPLY)));
    }
    int exchanged = find(name, EXCHANGED_WITH);
    if (exchanged > 0) {
      Line first = line(name.substring(0, exchanged), text, card);
      Line second = line(name.substring(exchanged + EXCHANGED_WITH.length()), text, card);
      if (first.equals(second)) {
        throw refused(text, first + " is named twice", "two different lines", "");
      }
      if (first.bus().role() != second.bus().role()) {
        throw refused(
            text,
            first + " and " + second + " do not go the same way",
            "two inputs, two outputs or two lines of shared buses",
            "");
      }
      return new LinesExchanged(first, second);
    }
    throw refused(text, "this is no fault name", FORMS, "");
  }

  private static int find(String name, String words) {
    return name.toLowerCase(Locale.ROOT).indexOf(words);
  }

  private static Line line(String name, String fault, Card card) {
    return card.line(name)
        .orElseThrow(
            () ->
                refused(
                    fault,
                    "card " + card.name() + " has no line '" + name + "'",
                    "a line name such as S[3], or a printed label",
                    hint(name, card)));
  }

  private static String hint(String name, Card card) {
    return card.lineWithoutBrackets(name)
        .map(line -> "Did you mean '" + line.name() + "'?")
        .orElseGet(() -> Nearest.hint(name, known(card)));
  }

  private static List<String> known(Card card) {
    List<String> names = new ArrayList<>();
    card.lines().forEach(line -> names.add(line.name()));
    return names;
  }

  private static RefusedException refused(String fault, String found, String wanted, String next) {
    return new RefusedException(new Problem("fault '" + fault + "'", found, wanted, next));
  }
}
