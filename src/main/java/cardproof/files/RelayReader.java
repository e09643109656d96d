package cardproof.files;

import cardproof.card.wiring.RelayType;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** A relay among the entries of {@code parts}. */
final class RelayReader {
  private static final String COIL = "two nets, such as coil: a, GND";

  private final RelayTypes types;
  private final Problems problems;
  private final NetReader nets;

  RelayReader(RelayTypes types, Problems problems) {
    this.types = types;
    this.problems = problems;
    this.nets = new NetReader(problems);
  }

  Optional<PartForm> read(Fields fields, List<String> repeats) {
    Optional<RelayType> type =
        fields
            .require("type", "type: PT-4-12V, out of the file of relay types")
            .flatMap(node -> new Texts(problems).text(node, "type", "the name of a relay type"))
            .flatMap(types::type);
    Optional<List<IndexText>> coil =
        fields.require("coil", "coil: a, GND").flatMap(node -> coil(node, repeats));
    boolean flyback = fields.get("flyback").map(this::flyback).orElse(false);
    Optional<IndexText> socket =
        fields
            .get("socket")
            .flatMap(node -> new Texts(problems).text(node, "socket", "a tag such as X3"))
            .flatMap(text -> IndexText.read(text, IndexText.Use.PART, repeats, problems));
    int most = type.map(RelayType::poles).orElse(RelayType.MOST_POLES);
    Optional<List<PoleText>> poles =
        fields.has("poles")
            ? new PolesReader(type, repeats, problems).read(fields.get("poles").orElseThrow())
            : Optional.of(java.util.Collections.nCopies(most, PoleText.UNUSED));
    boolean complete = type.isPresent() && coil.isPresent() && poles.isPresent();
    return complete && (socket.isPresent() || !fields.has("socket"))
        ? Optional.of(
            new RelayForm(
                type.get(), coil.get().get(0), coil.get().get(1), flyback, socket, poles.get()))
        : Optional.empty();
  }

  private Optional<List<IndexText>> coil(Node node, List<String> repeats) {
    if (!(node instanceof Node.Mapping map)) {
      return nets.two(node, "coil", repeats);
    }
    Map<String, IndexText> ends = new HashMap<>();
    for (Node.Entry entry : map.entries()) {
      Optional<String> end =
          TerminalNames.ofRelay(entry.key().text(), 1).filter(name -> name.startsWith("coil"));
      if (end.isEmpty()) {
        problems.error(
            entry.key().at(),
            entry.key().described() + " is no end of a coil",
            "coil1 and coil2, or A1 and A2",
            "");
      }
      Optional<IndexText> net = nets.net(entry.value(), entry.key().text(), repeats);
      if (end.isPresent() && net.isPresent() && ends.put(end.get(), net.get()) != null) {
        problems.error(entry.key().at(), end.get() + " twice", "each end of the coil once", "");
      }
    }
    if (map.entries().size() < 2) {
      problems.error(map.at(), "'coil' names one end of the coil", COIL, "");
    }
    return ends.size() == 2
        ? Optional.of(List.of(ends.get("coil1"), ends.get("coil2")))
        : Optional.empty();
  }

  private boolean flyback(Node node) {
    String wanted = "diode, for one soldered across the coil, or none";
    String word = new Texts(problems).text(node, "flyback", wanted).map(Node.Text::text).orElse("");
    if (!word.isEmpty() && !word.equals("diode") && !word.equals("none")) {
      problems.error(node.at(), node.saidOf("flyback"), wanted, "");
    }
    return word.equals("diode");
  }
}
