package cardproof.files;

import cardproof.card.Card;
import cardproof.card.Limits;
import cardproof.card.RelayFigures;
import cardproof.card.Supply;
import cardproof.card.compose.Circle;
import cardproof.card.compose.Composition;
import cardproof.card.compose.Member;
import cardproof.card.compose.MemberBus;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** From a tree to two cards that are one unit under test, their files included. */
final class PairReader {
  static final List<String> KEYS =
      List.of(
          "pair", "title", "supply", "cards", "cable", "inputs", "outputs", "shared", "limits",
          "relays");

  private final Path file;
  private final List<Path> within;
  private final Problems problems;
  private final List<Path> sources = new ArrayList<>();

  /**
   * @param within files of the pairs that this one is a card of, outermost first
   */
  PairReader(Path file, List<Path> within, Problems problems) {
    this.file = file;
    this.within = within;
    this.problems = problems;
    sources.add(file);
  }

  /** The pair, then its cards. */
  List<Path> sources() {
    return List.copyOf(sources);
  }

  /**
   * The pair; where anything is wrong with it, {@code problems} says so and it must not be used.
   */
  Optional<Card> read(Node root) {
    return Fields.of(root, "the pair", KEYS, problems).flatMap(this::pair);
  }

  private Optional<Card> pair(Fields fields) {
    Texts texts = new Texts(problems);
    Optional<String> name = fields.require("pair", "pair: hour").flatMap(texts::pairName);
    Optional<String> title = fields.get("title").flatMap(node -> texts.title(node, "title"));
    PairCards cards = new PairCards(file, within, sources, problems);
    fields
        .require("cards", "cards: with a name and a file for each of the two")
        .ifPresent(cards::read);
    PairNames names = new PairNames(cards, problems);
    CableReader cable = new CableReader(names, cards.names(), problems);
    fields.require("cable", "cable: with a list of the buses that it joins").ifPresent(cable::read);
    LeavingReader leaving = new LeavingReader(names, cable, problems);
    leaving.read(fields);
    Optional<List<Member>> members = cards.members();
    if (members.isEmpty()) {
      return Optional.empty();
    }
    PairFigures figures = new PairFigures(members.get(), problems);
    Optional<Supply> supply = figures.supply(fields);
    Optional<Composition> composed =
        names.allGood()
            ? Optional.of(new Composition(members.get(), cable.cables(), leaving.leaving()))
            : Optional.empty();
    RelayFigures relays =
        composed
            .filter(pair -> pair.wiring(fields.at()).isPresent())
            .map(pair -> soldered(pair, fields))
            .orElseGet(() -> figures.relays(fields));
    Optional<Limits> limits = figures.limits(fields, relays);
    if (name.isEmpty() || supply.isEmpty() || limits.isEmpty() || composed.isEmpty()) {
      return Optional.empty();
    }
    Composition composition = composed.get();
    composition.circles().forEach(this::warnOfCircle);
    composition.released().forEach(bus -> warnOfReleased(bus, cards, members.get()));
    String shown = title.orElse(name.get());
    return Optional.of(
        composition.card(name.get(), shown, supply.get(), limits.get(), relays, fields.at()));
  }

  /** Where the wiring of both cards is known, nothing need be assumed. */
  private RelayFigures soldered(Composition pair, Fields fields) {
    return new RelaysReader(problems)
        .read(fields.get("relays"), pair.wiring(fields.at()), pair.buses());
  }

  private void warnOfCircle(Circle circle) {
    problems.warn(
        circle.at(),
        "the cable closes a circle with nothing in it that keeps a value: "
            + String.join(" -> ", circle.names()),
        "",
        "It holds what it falls into or never comes to rest, so it is not predicted; a register"
            + " between, named under 'state' in its card, breaks it");
  }

  private void warnOfReleased(MemberBus bus, PairCards cards, List<Member> members) {
    problems.warn(
        cards.at(bus.member()),
        "input "
            + bus.name(members)
            + " has no cable and does not leave the pair, so it stays released",
        "",
        "Join it under 'cable', or name it under 'inputs'");
  }
}
