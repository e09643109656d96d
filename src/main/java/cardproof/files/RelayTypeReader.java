package cardproof.files;

import cardproof.card.wiring.Figure;
import cardproof.card.wiring.RelayType;
import cardproof.card.wiring.Spot;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;

/** One relay type of a library. */
final class RelayTypeReader {
  static final List<String> KEYS =
      List.of(
          "title",
          "poles",
          "coil",
          "operate",
          "release",
          "release-with-diode",
          "bounce",
          "life",
          "contact-load",
          "terminals",
          "source");
  static final List<String> COIL_KEYS = List.of("voltage", "ohms", "operate", "release");
  static final List<String> BOUNCE_KEYS = List.of("no", "nc");
  static final List<String> CONTACT_KEYS = List.of("voltage", "current");

  private static final String NAME = "[A-Za-z0-9][A-Za-z0-9._/+-]*";
  private static final long MOST_MILLIVOLTS = 1_000_000;
  private static final long MOST_MILLIOHMS = 100_000_000_000L;
  private static final long MOST_MILLIAMPS = 100_000;
  private static final long MOST_OPERATIONS = 1_000_000_000_000L;

  private final Problems problems;
  private final FigureReader figures;

  RelayTypeReader(Problems problems) {
    this.problems = problems;
    this.figures = new FigureReader(problems);
  }

  /** The type; empty, with problems said, where anything of it is missing or wrong. */
  Optional<RelayType> read(Node.Entry entry) {
    Node.Text name = entry.key();
    if (!name.text().matches(NAME) || name.text().length() > Texts.LONGEST_NAME) {
      problems.error(
          name.at(),
          name.described() + " cannot be the name of a relay type",
          "letters, digits, '-', '.', '_', '/' and '+', at most 40 of them",
          "");
      return Optional.empty();
    }
    return Fields.of(entry.value(), "relay type '" + name.text() + "'", KEYS, problems)
        .flatMap(fields -> type(name, fields));
  }

  private Optional<RelayType> type(Node.Text name, Fields fields) {
    Texts texts = new Texts(problems);
    Optional<String> title = fields.get("title").flatMap(node -> texts.title(node, "title"));
    OptionalLong poles =
        fields
            .require("poles", "poles: 4, how many change-over contacts it has")
            .map(n -> new Numbers(problems).count(n, "poles", 1, RelayType.MOST_POLES))
            .orElse(OptionalLong.empty());
    Optional<Coil> coil =
        fields
            .require("coil", "coil: {voltage: 12 V, ohms: 192 ohm}")
            .flatMap(node -> Fields.of(node, "coil", COIL_KEYS, problems))
            .flatMap(this::coil);
    Optional<Figure> operate =
        fields
            .require("operate", "operate: {typical: 15 ms}")
            .flatMap(node -> figures.read(node, "operate", 1));
    Optional<Figure> release =
        fields
            .require("release", "release: {typical: 10 ms}, with nothing across the coil")
            .flatMap(node -> figures.read(node, "release", 1));
    Optional<Figure> withDiode =
        fields
            .require(
                "release-with-diode",
                "release-with-diode: {typical: 30 ms}; where the sheet does not state it, three"
                    + " times the release is common")
            .flatMap(node -> figures.read(node, "release-with-diode", 1));
    Optional<Fields> bounce =
        fields
            .require("bounce", "bounce: {no: {typical: 6 ms}, nc: {typical: 8 ms}}")
            .flatMap(node -> Fields.of(node, "bounce", BOUNCE_KEYS, problems));
    Optional<Figure> bounceNo = bounce.flatMap(f -> bounce(f, "no"));
    Optional<Figure> bounceNc = bounce.flatMap(f -> bounce(f, "nc"));
    long life = fields.get("life").map(this::life).orElse(0L);
    Optional<ContactLoad> contact =
        fields
            .get("contact-load")
            .flatMap(node -> Fields.of(node, "contact-load", CONTACT_KEYS, problems))
            .map(this::contactLoad);
    Map<String, Spot> terminals =
        fields
            .get("terminals")
            .filter(node -> poles.isPresent())
            .map(node -> terminals(node, (int) poles.getAsLong()))
            .orElse(Map.of());
    Optional<String> source =
        fields
            .require("source", "source: the maker, the data sheet and its edition")
            .flatMap(node -> texts.title(node, "source"));
    if (poles.isEmpty()
        || coil.isEmpty()
        || operate.isEmpty()
        || release.isEmpty()
        || withDiode.isEmpty()
        || bounceNo.isEmpty()
        || bounceNc.isEmpty()
        || source.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new RelayType(
            name.text(),
            title.orElse(name.text()),
            (int) poles.getAsLong(),
            coil.get().millivolts(),
            coil.get().milliohms() / 1000.0,
            coil.get().operatePercent(),
            coil.get().releasePercent(),
            operate.get(),
            release.get(),
            withDiode.get(),
            bounceNo.get(),
            bounceNc.get(),
            life,
            terminals,
            source.get(),
            contact.map(ContactLoad::millivolts).orElse(0L),
            contact.map(ContactLoad::milliamps).orElse(0L),
            name.at()));
  }

  private record ContactLoad(long millivolts, long milliamps) {}

  private ContactLoad contactLoad(Fields fields) {
    long millivolts =
        fields
            .require("voltage", "voltage: 12 V")
            .map(n -> Quantity.VOLTAGE.read(n, "voltage", 1, MOST_MILLIVOLTS, problems).orElse(0))
            .orElse(0L);
    long milliamps =
        fields
            .require("current", "current: 10 mA")
            .map(n -> Quantity.CURRENT.read(n, "current", 1, MOST_MILLIAMPS, problems).orElse(0))
            .orElse(0L);
    return new ContactLoad(millivolts, milliamps);
  }

  private record Coil(long millivolts, long milliohms, int operatePercent, int releasePercent) {}

  private Optional<Coil> coil(Fields fields) {
    OptionalLong millivolts =
        fields
            .require("voltage", "voltage: 12 V")
            .map(n -> Quantity.VOLTAGE.read(n, "voltage", 1, MOST_MILLIVOLTS, problems))
            .orElse(OptionalLong.empty());
    OptionalLong milliohms =
        fields
            .require("ohms", "ohms: 192 ohm")
            .map(n -> Quantity.RESISTANCE.read(n, "ohms", 1, MOST_MILLIOHMS, problems))
            .orElse(OptionalLong.empty());
    int operate = percent(fields, "operate", RelayType.DEFAULT_OPERATE_PERCENT);
    int release = percent(fields, "release", RelayType.DEFAULT_RELEASE_PERCENT);
    if (release >= operate) {
      problems.error(
          fields.at(),
          "this coil would release below " + release + " % and operate from " + operate + " %",
          "a release voltage below the operate voltage",
          "Exchange them if they changed places");
    }
    return millivolts.isPresent() && milliohms.isPresent()
        ? Optional.of(new Coil(millivolts.getAsLong(), milliohms.getAsLong(), operate, release))
        : Optional.empty();
  }

  private int percent(Fields fields, String key, int otherwise) {
    return fields
        .get(key)
        .map(n -> (int) Quantity.PERCENT.read(n, key, 1, 100, problems).orElse(otherwise))
        .orElse(otherwise);
  }

  private Optional<Figure> bounce(Fields fields, String key) {
    return fields
        .require(key, key + ": {typical: 6 ms}")
        .flatMap(node -> figures.read(node, key, 0));
  }

  private long life(Node node) {
    return new Numbers(problems).count(node, "life", 1, MOST_OPERATIONS).orElse(0);
  }

  private Map<String, Spot> terminals(Node node, int poles) {
    if (!(node instanceof Node.Mapping map)) {
      problems.error(
          node.at(),
          node.saidOf("terminals"),
          "a map from terminals to places, such as coil1: 2.5 mm, 10 mm",
          "");
      return Map.of();
    }
    Map<String, Spot> spots = new LinkedHashMap<>();
    for (Node.Entry entry : map.entries()) {
      Optional<String> terminal = TerminalNames.ofRelay(entry.key().text(), poles);
      Optional<Spot> spot =
          SpotText.read(entry.value(), entry.key().text(), List.of(), problems)
              .map(text -> text.spot(RepeatValues.NONE));
      if (terminal.isEmpty()) {
        RelayTerminals.unknown(entry.key(), poles, problems);
      } else if (spot.isPresent() && spots.put(terminal.get(), spot.get()) != null) {
        problems.error(
            entry.key().at(), "terminal " + terminal.get() + " twice", "every terminal once", "");
      }
    }
    return spots;
  }
}
