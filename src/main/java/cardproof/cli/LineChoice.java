package cardproof.cli;

import cardproof.log.LineName;
import cardproof.text.Nearest;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;

/** Lines by the names a user knows them by: a bus, a bit of one, a printed label, a pin. */
final class LineChoice {
  private LineChoice() {}

  /**
   * Tells the lines that any of the names means; all where there are no names.
   *
   * @param lines of the card, to find out names that mean none
   * @throws RefusedException when a name means none of the watched lines
   */
  static Predicate<LineName> of(List<String> names, List<LineName> lines, Path file) {
    for (String name : names) {
      if (lines.stream().noneMatch(line -> line.watched() && means(name, line))) {
        throw new RefusedException(
            new Problem(
                file.toString(),
                "'" + name + "' is no watched line of this card",
                "a bus, a bit as in S[3], a label or a pin",
                Nearest.hint(name, known(lines))));
      }
    }
    return line -> names.isEmpty() || names.stream().anyMatch(name -> means(name, line));
  }

  private static boolean means(String name, LineName line) {
    return name.equals(line.bus())
        || name.equals(line.bus() + "[" + line.bit() + "]")
        || name.equals(line.label())
        || name.equals(line.pin());
  }

  private static List<String> known(List<LineName> lines) {
    List<String> known = new ArrayList<>();
    for (LineName line : lines) {
      if (line.watched()) {
        known.add(line.bus());
        known.add(line.bus() + "[" + line.bit() + "]");
        known.add(line.label());
      }
    }
    return known;
  }
}
