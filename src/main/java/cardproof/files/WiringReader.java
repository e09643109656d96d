package cardproof.files;

import cardproof.card.Bus;
import cardproof.card.Pin;
import cardproof.card.wiring.Wiring;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;

/** {@code wiring:} of a card, from its text to all its parts and nets. */
final class WiringReader {
  static final List<String> KEYS =
      List.of("relay-types", "supply", "ground", "common", "blocks", "parts", "netlist", "kinds");

  private static final String NETLIST = "a file of comma-separated values, such as sum.csv";
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
    common(fields).forEach(net -> assembly.addEverywhere(net.text()));
    List<PowerNet> power = List.of(supply.get(), ground.get());
    Optional<List<String>> lineNets =
        fields.has("netlist")
            ? netlist(fields, types, power, assembly)
            : spelledOut(fields, types, assembly);
    assembly.tell(problems);
    if (problems.count() > before || lineNets.isEmpty()) {
      return Optional.empty();
    }
    Wiring wiring =
        assembly
            .builder()
            .build(
                supply.get().net().text(), ground.get().net().text(), lineNets.get(), fields.at());
    new PowerCheck(problems).check(wiring, supply.get(), ground.get());
    return Optional.of(wiring.withPowerPins(powerPins(wiring, power)));
  }

  private static Map<Integer, String> powerPins(Wiring wiring, List<PowerNet> power) {
    Map<Integer, String> pins = new HashMap<>();
    for (PowerNet net : power) {
      net.pin().ifPresent(pin -> pins.put(wiring.net(net.net().text()), pin.toString()));
    }
    return pins;
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

  /** Makes the parts that the card's file lists; a line is the net of its own name. */
  private Optional<List<String>> spelledOut(Fields fields, RelayTypes types, Assembly assembly) {
    fields
        .entry("kinds")
        .ifPresent(
            kinds ->
                problems.error(
                    kinds.key().at(),
                    "'kinds' has no meaning without 'netlist'",
                    "either 'parts', or 'netlist' with 'kinds'",
                    ""));
    BlocksReader blocks = new BlocksReader(assembly.everywhere(), problems);
    fields.get("blocks").ifPresent(blocks::declare);
    PartReader reader = new PartReader(types, blocks.blocks(), problems);
    blocks.readParts(reader);
    List<PartEntry> entries =
        fields
            .require("parts", "parts: and the list of what is soldered on the card")
            .map(node -> reader.readAll(node, "wiring"))
            .orElse(List.of());
    if (!new BlockCircles(problems).noneIn(blocks.blocks().values())
        || !new PartBudget(problems).allows(entries)) {
      return Optional.empty();
    }
    for (Bus bus : buses) {
      IntStream.range(0, bus.width()).forEach(b -> assembly.net(bus.lineName(b), bus.at()));
    }
    Place place = Place.card(assembly);
    entries.forEach(entry -> entry.spellOut(place));
    return Optional.of(assembly.lines().names());
  }

  /** Makes the parts of a netlist, whose connectors say which net a line is. */
  private Optional<List<String>> netlist(
      Fields fields, RelayTypes types, List<PowerNet> power, Assembly assembly) {
    for (String key : List.of("parts", "blocks", "common")) {
      fields
          .entry(key)
          .ifPresent(
              entry ->
                  problems.error(
                      entry.key().at(),
                      "'" + key + "' has no meaning beside 'netlist'",
                      "either 'parts', or 'netlist' with 'kinds'",
                      "Delete one of them"));
    }
    Optional<Kinds> kinds =
        fields
            .require("kinds", "kinds: {K*: {relay: PT-4-12V}, D*: diode}")
            .flatMap(node -> new KindsReader(types, problems).read(node));
    Optional<Node.Text> name =
        fields.get("netlist").flatMap(node -> new Texts(problems).text(node, "netlist", NETLIST));
    Optional<Path> file =
        name.flatMap(
            text ->
                OtherFile.named(
                    text, card, "the netlist, named from where the card lies", NETLIST, problems));
    if (kinds.isEmpty() || file.isEmpty()) {
      return Optional.empty();
    }
    sources.add(file.get());
    Map<Pin, PowerNet> pins = new LinkedHashMap<>();
    power.forEach(net -> net.pin().ifPresent(pin -> pins.put(pin, net)));
    return Optional.of(
        new NetlistReader(buses, pins, kinds.get(), problems)
            .read(file.get(), name.orElseThrow(), assembly));
  }
}
