package cardproof.files;

import cardproof.bits.Scope;
import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.plan.Target;
import cardproof.text.Nearest;
import cardproof.text.Position;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.Stream;

/**
 * The names of a plan's card. Where the card could not be read its own problems are enough: no name
 * is found then, and none is complained of, so that the rest of the plan can still be looked
 * through.
 */
final class PlanNames {
  private final Optional<Card> card;
  private final SetNames setNames;
  private final Problems problems;

  PlanNames(Optional<Card> card, SetNames setNames, Problems problems) {
    this.card = card;
    this.setNames = setNames;
    this.problems = problems;
  }

  Optional<Card> card() {
    return card;
  }

  Bus bus(int index) {
    return card.orElseThrow().buses().get(index);
  }

  SetNames setNames() {
    return setNames;
  }

  /** Reads numbers, set ones included. */
  Numbers numbers() {
    return new Numbers(problems, setNames);
  }

  /** What expressions may name: what the card's may, and set numbers. */
  Scope scope() {
    return new PlanScope(card.orElseThrow().scope(), setNames);
  }

  /** In words: {@code bus 'S'}, or {@code line 'S[3]'}. */
  String of(Target target) {
    return (target.wholeBus() ? "bus '" : "line '") + target.name(card.orElseThrow()) + "'";
  }

  /** What it is called, as a key of a plan would have it. */
  String name(Target target) {
    return target.name(card.orElseThrow());
  }

  boolean isBusOrLine(Node.Text name) {
    String bare = name.text().strip();
    return card.isPresent()
        && (card.get().busIndex(bare) >= 0 || card.get().line(bare).isPresent());
  }

  /** Whether they have a line in common. */
  boolean overlap(Target one, Target other) {
    return one.busIndex() == other.busIndex() && (mask(one) & mask(other)) != 0;
  }

  int width(Target target) {
    return target.width(card.orElseThrow());
  }

  private long mask(Target target) {
    return target.mask(card.orElseThrow());
  }

  /**
   * An input or shared bus, or a line of one by its name or label; empty, with a problem said,
   * where it is none.
   */
  Optional<Target> driven(Node.Text name) {
    return find(name, true, "is an output, which only the card drives", "an input or a shared bus");
  }

  /**
   * An output or shared bus, or a line of one by its name or label; empty, with a problem said,
   * where it is none.
   */
  Optional<Target> watched(Node.Text name) {
    return find(
        name, false, "is an input, of which nothing is watched", "an output or a shared bus");
  }

  private Optional<Target> find(Node.Text name, boolean driven, String wrongWay, String wanted) {
    if (card.isEmpty()) {
      return Optional.empty();
    }
    String bare = name.text().strip();
    int index = card.get().busIndex(bare);
    Optional<Target> target =
        index >= 0 ? Optional.of(Target.bus(index)) : card.get().line(bare).map(PlanNames::line);
    if (target.isPresent() && fitting(bus(target.get().busIndex()), driven)) {
      return target;
    }
    List<String> known =
        card.get().buses().stream().filter(b -> fitting(b, driven)).map(Bus::name).toList();
    int last = bare.lastIndexOf(' ') + 1;
    if (target.isEmpty() && last > 0 && setNames.has(bare.substring(last))) {
      String value = bare.substring(last);
      Position at = name.at(name.text().lastIndexOf(value));
      valueInKey(bare.substring(0, last).strip(), new Node.Text(at, value, false, value, false));
    } else if (target.isPresent()) {
      problems.error(name.at(), name.described() + " " + wrongWay, wanted, Nearest.listed(known));
    } else if (setNames.has(bare)) {
      problems.error(
          name.at(),
          namedValue(name),
          wanted,
          meant(bare, bus -> fitting(bus, driven)).orElse(Nearest.listed(known)));
    } else {
      problems.error(
          name.at(),
          "card '" + card.get().name() + "' has no bus, line or label " + name.described(),
          wanted,
          meant(bare, bus -> fitting(bus, driven)).orElse(Nearest.listed(known)));
    }
    return Optional.empty();
  }

  /** What to say of a name of a plan's own where a bus was wanted. */
  private String namedValue(Node.Text name) {
    return name.described() + " " + setNames.instead(name.text());
  }

  /** Says what was meant by a set name that stands behind buses in a key, as if it were one too. */
  void valueInKey(String buses, Node.Text name) {
    problems.error(
        name.at(),
        namedValue(name),
        "buses or lines before the ':'",
        "To set them to " + name.text() + " write " + QuoteHint.asKey(buses) + ": " + name.text());
  }

  private static Target line(Line line) {
    return line.bus().width() == 1
        ? Target.bus(line.busIndex())
        : new Target(line.busIndex(), line.bit());
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
          setNames.has(bare)
              ? namedValue(name)
              : "card '" + card.get().name() + "' has no bus, line or label " + name.described(),
          "an output or shared bus, a line such as S[3], or a printed label",
          meant(bare, bus -> bus.role().watched()).orElse(""));
    }
  }

  private Optional<String> meant(String name, Predicate<Bus> buses) {
    return card.orElseThrow()
        .lineWithoutBrackets(name)
        .filter(line -> buses.test(line.bus()))
        .map(Line::name)
        .or(() -> Nearest.to(name, names(buses)))
        .map(near -> "Did you mean '" + near + "'?");
  }

  /** Every name by which lines of some buses may be called. */
  private List<String> names(Predicate<Bus> buses) {
    return card.orElseThrow().lines().stream()
        .filter(line -> buses.test(line.bus()))
        .flatMap(line -> Stream.of(line.bus().name(), line.name(), line.label()))
        .distinct()
        .toList();
  }
}
