package cardproof.files;

import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.text.Nearest;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.Stream;

/**
 * The names of a plan's card. Where the card could not be read its own problems are enough: no name
 * is found then, and none is complained of, so that the rest of the plan can still be looked
 * through.
 */
final class PlanNames {
  private final Optional<Card> card;
  private final Problems problems;

  PlanNames(Optional<Card> card, Problems problems) {
    this.card = card;
    this.problems = problems;
  }

  Optional<Card> card() {
    return card;
  }

  Bus bus(int index) {
    return card.orElseThrow().buses().get(index);
  }

  /** Index of an input or shared bus; empty, with a problem said, where it is none. */
  OptionalInt driven(Node.Text name) {
    return find(name, true, "is an output, which only the card drives", "an input or a shared bus");
  }

  /** Index of an output or shared bus; empty, with a problem said, where it is none. */
  OptionalInt watched(Node.Text name) {
    return find(
        name, false, "is an input, of which nothing is watched", "an output or a shared bus");
  }

  private OptionalInt find(Node.Text name, boolean driven, String wrongWay, String wanted) {
    if (card.isEmpty()) {
      return OptionalInt.empty();
    }
    String bare = name.text().strip();
    int index = card.get().busIndex(bare);
    if (index >= 0 && fitting(bus(index), driven)) {
      return OptionalInt.of(index);
    }
    List<String> known =
        card.get().buses().stream().filter(b -> fitting(b, driven)).map(Bus::name).toList();
    Optional<Line> line = index < 0 ? card.get().line(bare) : Optional.empty();
    if (index >= 0) {
      problems.error(
          name.at(),
          name.described() + " " + wrongWay,
          wanted,
          "Known: " + String.join(", ", known));
    } else if (line.isPresent()) {
      problems.error(
          name.at(),
          name.described() + " is one line of bus '" + line.get().bus().name() + "'",
          wanted + " as a whole",
          driven
              ? "Give the bus a number with that bit in it"
              : "Use a binary number with x for the other bits, such as 0bxx1x");
    } else {
      problems.error(
          name.at(),
          "card '" + card.get().name() + "' has no bus " + name.described(),
          wanted,
          Nearest.hint(bare, known));
    }
    return OptionalInt.empty();
  }

  private static boolean fitting(Bus bus, boolean driven) {
    return driven ? bus.role().driven() : bus.role().watched();
  }

  /**
   * Adds the bits that a bus, line or label stands for; says so where it is none that is watched.
   */
  void still(Node.Text name, long[] still) {
    if (card.isEmpty()) {
      return;
    }
    String bare = name.text().strip();
    int index = card.get().busIndex(bare);
    Optional<Line> line = card.get().line(bare);
    if (index >= 0 && bus(index).role().watched()) {
      still[index] |= bus(index).mask();
    } else if (line.isPresent() && line.get().bus().role().watched()) {
      still[line.get().busIndex()] |= 1L << line.get().bit();
    } else if (index >= 0 || line.isPresent()) {
      problems.error(
          name.at(),
          name.described() + " is an input, of which nothing is watched",
          "an output or shared bus, a line of one, or its printed label",
          "");
    } else {
      problems.error(
          name.at(),
          "card '" + card.get().name() + "' has no bus, line or label " + name.described(),
          "an output or shared bus, a line such as S[3], or a printed label",
          Nearest.to(bare, watchedNames()).map(near -> "Did you mean '" + near + "'?").orElse(""));
    }
  }

  private List<String> watchedNames() {
    List<String> names = new ArrayList<>();
    card.orElseThrow().lines().stream()
        .filter(line -> line.bus().role().watched())
        .flatMap(line -> Stream.of(line.bus().name(), line.name(), line.label()))
        .distinct()
        .forEach(names::add);
    return names;
  }
}
