package cardproof.files;

import cardproof.card.Bus;
import cardproof.card.wiring.Wiring;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** {@code wiring:} of a card, from its text to all its parts and nets. */
final class WiringReader {
  static final List<String> KEYS =
      List.of("relay-types", "supply", "ground", "common", "blocks", "parts", "netlist", "kinds");

  private static final String LIBRARY = "the file of relay types, such as ../relays.yaml";

  private final Path card;
  private final List<Bus> buses;
  private final List<Path> sources;
  private final Problems problems;

  /**
   * @param card its file, from where others are named
   * @param sources gets every file that is read
   */
  WiringReader(Path card, List<Bus> buses, List<Path> sources, Problems problems) {
    this.card = card;
    this.buses = buses;
    this.sources = sources;
    this.problems = problems;
  }

  /** Empty where there is none that could be used; problems say why. */
  Optional<Wiring> read(Node node) {
    return Fields.of(node, "wiring", KEYS, problems).flatMap(this::wiring);
  }

  private Optional<Wiring> wiring(Fields fields) {
    int before = problems.count();
    RelayTypes types = types(fields);
    Optional<PowerNet> supply =
        fields
            .require("supply", "supply: IN, the net at which the bench supply comes in")
            .flatMap(node -> PowerNet.read(node, "supply", buses, problems));
    Optional<PowerNet> ground =
        fields
            .require("ground", "ground: GND, the net that its current returns by")
            .flatMap(node -> PowerNet.read(node, "ground", buses, problems));
    if (supply.isEmpty() || ground.isEmpty()) {
      return Optional.empty();
    }
    if (supply.get().net().text().equals(ground.get().net().text())) {
      problems.error(ground.get().net().at(), "supply and ground are one net", "two nets", "");
      return Optional.empty();
    }
    Assembly assembly = new Assembly(new LineNames(buses), supply.get().net(), ground.get().net());
    List<Node.Text> common = common(fields);
    common.forEach(net -> assembly.addEverywhere(net.text()));
    List<PartEntry> entries = entries(fields, types, assembly);
    if (new PartBudget(problems).allows(entries)) {
      Place place = Place.card(assembly);
      entries.forEach(entry -> entry.spellOut(place));
      assembly.tell(problems);
    }
    if (problems.count() > before) {
      return Optional.empty();
    }
    Wiring wiring =
        assembly
            .builder()
            .build(
                supply.get().net().text(),
                ground.get().net().text(),
                assembly.lines().names(),
                fields.at());
    return Optional.of(wiring);
  }

  private RelayTypes types(Fields fields) {
    Optional<RelayLibrary> library =
        fields
            .get("relay-types")
            .flatMap(node -> new Texts(problems).text(node, "relay-types", LIBRARY))
            .flatMap(
                name ->
                    OtherFile.named(
                        name,
                        card,
                        "the file of relay types, named from where the card lies",
                        LIBRARY,
                        problems))
            .flatMap(
                file -> {
                  sources.add(file);
                  return RelayLibrary.read(file, problems);
                });
    return new RelayTypes(library, fields.has("relay-types"), problems);
  }

  private List<Node.Text> common(Fields fields) {
    List<Node.Text> nets = new ArrayList<>();
    fields
        .get("common")
        .flatMap(n -> TextList.read(n, "common", "nets such as [+12V, +5V]", problems))
        .orElse(List.of())
        .forEach(text -> PowerNet.name(text, "common", problems).ifPresent(nets::add));
    return nets;
  }

  private List<PartEntry> entries(Fields fields, RelayTypes types, Assembly assembly) {
    BlocksReader blocks = new BlocksReader(assembly.everywhere(), problems);
    fields.get("blocks").ifPresent(blocks::declare);
    PartReader reader = new PartReader(types, blocks.blocks(), problems);
    blocks.readParts(reader);
    List<PartEntry> entries =
        fields
            .require("parts", "parts: and the list of what is soldered on the card")
            .map(node -> reader.readAll(node, "wiring"))
            .orElse(List.of());
    return new BlockCircles(problems).noneIn(blocks.blocks().values()) ? entries : List.of();
  }
}
