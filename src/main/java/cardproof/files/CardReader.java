package cardproof.files;

import cardproof.card.Behaviour;
import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.card.CardScope;
import cardproof.card.Limits;
import cardproof.card.RelayFigures;
import cardproof.card.Role;
import cardproof.card.State;
import cardproof.card.Supply;
import cardproof.card.wiring.Wiring;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/** From a tree to a card. */
final class CardReader {
  static final List<String> KEYS =
      List.of(
          "card",
          "title",
          "supply",
          "inputs",
          "outputs",
          "shared",
          "state",
          "behaviour",
          "limits",
          "relays",
          "wiring");
  static final List<String> SUPPLY_KEYS = List.of("voltage", "limit", "least");

  private static final long MOST_MILLIVOLTS = 1_000_000;
  private static final long MOST_MILLIAMPS = 1_000_000;

  private final Path file;
  private final Problems problems;
  private final List<Path> sources = new ArrayList<>();

  /**
   * @param file where the card lies, from where it names others
   */
  CardReader(Path file, Problems problems) {
    this.file = file;
    this.problems = problems;
    sources.add(file);
  }

  /** Every file that was read for the card, its own first. */
  List<Path> sources() {
    return List.copyOf(sources);
  }

  /**
   * The card; where anything is wrong with it, {@code problems} says so and it must not be used.
   */
  Optional<Card> read(Node root) {
    return Fields.of(root, "the card", KEYS, problems).flatMap(this::card);
  }

  private Optional<Card> card(Fields fields) {
    Texts texts = new Texts(problems);
    Optional<String> name = fields.require("card", "card: sum").flatMap(texts::cardName);
    Optional<String> title = fields.get("title").flatMap(node -> texts.title(node, "title"));
    Optional<Supply> supply =
        fields
            .require("supply", "supply: {voltage: 12 V, limit: 3 A}")
            .flatMap(node -> Fields.of(node, "supply", SUPPLY_KEYS, problems))
            .flatMap(node -> supply(node, problems));
    CardNames names = new CardNames(problems);
    BusesReader busesReader = new BusesReader(names, problems);
    fields.get("inputs").ifPresent(node -> busesReader.read(node, "inputs", Role.INPUT));
    fields.get("outputs").ifPresent(node -> busesReader.read(node, "outputs", Role.OUTPUT));
    fields.get("shared").ifPresent(node -> busesReader.read(node, "shared", Role.SHARED));
    List<Bus> buses = busesReader.buses();
    names.checkLabels(buses);
    checkRoles(fields);
    // where a bus is missing because of its own mistake, what names it is not wrong for that
    Behaviour behaviour = busesReader.complete() ? behaviour(fields, buses, names) : null;
    Optional<Wiring> wiring =
        fields
            .get("wiring")
            .filter(node -> busesReader.complete())
            .flatMap(node -> new WiringReader(file, buses, sources, problems).read(node));
    RelaysReader relaysReader = new RelaysReader(problems);
    RelayFigures relays =
        fields.has("wiring")
            ? relaysReader.read(fields.get("relays"), wiring, buses)
            : relaysReader.read(fields.get("relays"), fields.at());
    Optional<Limits> limits =
        new LimitsReader(problems).read(fields, busesReader.settleUs(), relays);
    if (name.isEmpty() || supply.isEmpty() || limits.isEmpty()) {
      return Optional.empty();
    }
    Card card =
        new Card(
            name.get(),
            title.orElse(name.get()),
            supply.get(),
            buses,
            behaviour,
            limits.get(),
            relays,
            fields.at());
    return Optional.of(wiring.map(card::withWiring).orElse(card));
  }

  static Optional<Supply> supply(Fields fields, Problems problems) {
    OptionalLong millivolts =
        fields
            .require("voltage", "voltage: 12 V")
            .map(node -> Quantity.VOLTAGE.read(node, "voltage", 1, MOST_MILLIVOLTS, problems))
            .orElse(OptionalLong.empty());
    OptionalLong milliamps =
        fields
            .require("limit", "limit: 3 A, the most it should ever draw")
            .map(node -> Quantity.CURRENT.read(node, "limit", 1, MOST_MILLIAMPS, problems))
            .orElse(OptionalLong.empty());
    OptionalLong least =
        fields
            .get("least")
            .map(node -> Quantity.VOLTAGE.read(node, "least", 1, MOST_MILLIVOLTS, problems))
            .orElse(OptionalLong.empty());
    if (least.isPresent()
        && millivolts.isPresent()
        && least.getAsLong() >= millivolts.getAsLong()) {
      problems.error(
          fields.get("least").orElseThrow().at(),
          "the supply may not fall below "
              + Quantity.VOLTAGE.text(least.getAsLong())
              + ", and it stands at "
              + Quantity.VOLTAGE.text(millivolts.getAsLong()),
          "less than its voltage, such as 80 % of it",
          "");
    }
    return millivolts.isPresent() && milliamps.isPresent()
        ? Optional.of(new Supply(millivolts.getAsLong(), milliamps.getAsLong(), least))
        : Optional.empty();
  }

  /** Something must be there to drive, and something to watch. */
  private void checkRoles(Fields fields) {
    if (!fields.has("inputs") && !fields.has("shared")) {
      problems.error(
          fields.at(),
          "the card has no lines that could be driven",
          "'inputs' or 'shared', such as inputs: {A: {width: 12, at: J1.1-12}}",
          "");
    }
    if (!fields.has("outputs") && !fields.has("shared")) {
      problems.error(
          fields.at(),
          "the card has no lines that could be watched",
          "'outputs' or 'shared', such as outputs: {S: {width: 12, at: J4.1-12}}",
          "");
    }
  }

  /** Null where the card says nothing of it, which is how {@link Card} takes it. */
  private Behaviour behaviour(Fields fields, List<Bus> buses, CardNames names) {
    CardScope scope = new CardScope(buses);
    StatesReader statesReader = new StatesReader(problems);
    fields.get("state").ifPresent(node -> statesReader.declare(node, names, scope));
    List<State> states = statesReader.states(scope);
    BehaviourReader reader = new BehaviourReader(buses, scope, problems);
    fields.get("behaviour").ifPresent(reader::read);
    if (!fields.has("behaviour") && !fields.has("state")) {
      problems.warn(
          fields.at(),
          "the card has no 'behaviour'",
          "",
          "Give an expression for each output, or plans must say what to expect of every one");
      return null;
    }
    reader.warnOfMissing();
    // a state left out would shift the slots of those behind it
    return states.size() == scope.size() - buses.size() ? reader.behaviour(states) : null;
  }
}
