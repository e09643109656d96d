package cardproof.files;

import cardproof.card.wiring.Diode;
import cardproof.card.wiring.Fuse;
import cardproof.card.wiring.Lamp;
import cardproof.card.wiring.Resistor;
import cardproof.card.wiring.Wire;
import java.util.List;
import java.util.Optional;

/** The parts that stand between two nets: diodes, resistors, lamps, fuses, wires. */
final class EndsReader {
  private final Problems problems;
  private final NetReader nets;
  private final RatingReader ratings;

  EndsReader(Problems problems) {
    this.problems = problems;
    this.nets = new NetReader(problems);
    this.ratings = new RatingReader(problems);
  }

  Optional<PartForm> read(Fields fields, PartKind kind, List<String> repeats) {
    Optional<List<IndexText>> ends =
        kind == PartKind.DIODE ? diode(fields, repeats) : two(fields, repeats);
    Optional<EndsForm.Maker> maker = maker(fields, kind);
    return ends.flatMap(both -> maker.map(m -> new EndsForm(both.get(0), both.get(1), m)));
  }

  private Optional<List<IndexText>> two(Fields fields, List<String> repeats) {
    return fields
        .require("ends", "ends: IN, +12V")
        .flatMap(node -> nets.two(node, "ends", repeats));
  }

  private Optional<List<IndexText>> diode(Fields fields, List<String> repeats) {
    Optional<IndexText> anode = net(fields, "anode", repeats);
    Optional<IndexText> cathode = net(fields, "cathode", repeats);
    return anode.flatMap(a -> cathode.map(c -> List.of(a, c)));
  }

  private Optional<IndexText> net(Fields fields, String key, List<String> repeats) {
    return fields
        .require(key, key + ": and the net that it is on")
        .flatMap(node -> nets.net(node, key, repeats));
  }

  private Optional<EndsForm.Maker> maker(Fields fields, PartKind kind) {
    return switch (kind) {
      case DIODE -> Optional.of((m, a, c) -> new Diode(m.name(), a, c, m.spot(), m.at()));
      case WIRE -> Optional.of((m, a, b) -> new Wire(m.name(), a, b, m.spot(), m.at()));
      case FUSE ->
          fields
              .require("rating", "rating: 3 A")
              .flatMap(node -> ratings.fuse(node, "rating"))
              .map(amps -> (m, a, b) -> new Fuse(m.name(), a, b, amps, m.spot(), m.at()));
      case RESISTOR ->
          fields
              .require("ohms", "ohms: 1 kohm")
              .flatMap(node -> ratings.ohms(node, "ohms"))
              .map(ohms -> (m, a, b) -> new Resistor(m.name(), a, b, ohms, m.spot(), m.at()));
      case LAMP ->
          fields
              .require("rating", "rating: 12 V 40 mA")
              .flatMap(node -> ratings.lamp(node, "rating"))
              .map(EndsReader::lamp);
      case RELAY, BLOCK -> throw new IllegalArgumentException(kind.key() + " has no two ends");
    };
  }

  private static EndsForm.Maker lamp(RatingReader.LampRating rating) {
    return (m, a, b) ->
        new Lamp(m.name(), a, b, rating.millivolts(), rating.milliamps(), m.spot(), m.at());
  }
}
