package cardproof.files;

import cardproof.card.Bus;
import cardproof.card.Pin;
import java.util.List;
import java.util.Optional;

/**
 * A net that power comes or goes by: {@code IN}, or {@code {net: IN, at: J9.1}}.
 *
 * @param net its name, where it is written
 * @param pin where it leaves the card, if the file says so
 */
record PowerNet(Node.Text net, Optional<Pin> pin) {
  static final List<String> KEYS = List.of("net", "at");

  static Optional<PowerNet> read(Node node, String key, List<Bus> buses, Problems problems) {
    if (node instanceof Node.Text text) {
      return name(text, key, problems).map(net -> new PowerNet(net, Optional.empty()));
    }
    Optional<Fields> fields = Fields.of(node, "'" + key + "'", KEYS, problems);
    Optional<Node.Text> net =
        fields.flatMap(f -> f.require("net", "net: IN")).flatMap(n -> name(n, "net", problems));
    Optional<Pin> pin = fields.flatMap(f -> f.get("at")).flatMap(at -> pin(at, buses, problems));
    return net.map(found -> new PowerNet(found, pin));
  }

  /** A net of the card itself; an index in it is a plain number. */
  static Optional<Node.Text> name(Node node, String key, Problems problems) {
    return new NetReader(problems)
        .net(node, key, List.of())
        .map(net -> net.text().written(net.name(RepeatValues.NONE)));
  }

  private static Optional<Pin> pin(Node node, List<Bus> buses, Problems problems) {
    Optional<List<Pin>> pins = new PinReader(problems).read(node);
    if (pins.isPresent() && pins.get().size() != 1) {
      problems.error(node.at(), "'at' names " + pins.get().size() + " pins", "one pin", "");
      return Optional.empty();
    }
    Optional<Pin> pin = pins.map(one -> one.get(0));
    Optional<Bus> owner =
        buses.stream().filter(bus -> pin.isPresent() && bus.pins().contains(pin.get())).findFirst();
    owner.ifPresent(
        bus ->
            problems.error(
                node.at(),
                "pin " + pin.get() + " already belongs to bus '" + bus.name() + "'",
                "a pin of its own",
                ""));
    return pin;
  }
}
