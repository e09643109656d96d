package cardproof.cli;

import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.util.regex.Pattern;

/** What a unit may be called: what fits on a sticker, and lists well. */
final class UnitName {
  private static final Pattern FORM = Pattern.compile("[A-Za-z0-9][A-Za-z0-9 ._-]{0,30}");

  private UnitName() {}

  /**
   * @throws RefusedException when the name is empty, long, or holds other signs
   */
  static String checked(String name) {
    if (FORM.matcher(name).matches()) {
      return name;
    }
    throw new RefusedException(
        new Problem(
            "--unit '" + name + "'",
            "a unit cannot be called that",
            "letters, digits, '.', '_', '-' and blanks, at most 31, the first a letter or digit",
            "Write what is on the card's sticker, such as --unit 03"));
  }
}
