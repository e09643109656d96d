package cardproof.cli;

import cardproof.log.LineName;
import java.util.List;
import java.util.function.Predicate;

/** Chooses lines of a card once its lines are known. */
interface LineChooser {
  /** Tells the lines that are meant. */
  Predicate<LineName> among(List<LineName> lines);
}
