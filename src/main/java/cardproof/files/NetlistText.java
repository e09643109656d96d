package cardproof.files;

import cardproof.card.wiring.Diode;
import cardproof.card.wiring.Fuse;
import cardproof.card.wiring.Lamp;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Resistor;
import cardproof.card.wiring.Wire;
import cardproof.card.wiring.Wiring;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;

/** What a card says of a netlist that holds its parts. */
final class NetlistText {
  private static final double MILLI = 1000;

  private final Wiring wiring;

  NetlistText(Wiring wiring) {
    this.wiring = wiring;
  }

  String text(String relayTypes, String netlist) {
    StringBuilder text = new StringBuilder("wiring:\n");
    text.append("  relay-types: ").append(QuoteHint.quoted(relayTypes)).append('\n');
    text.append("  supply: ").append(power(wiring.supply())).append('\n');
    text.append("  ground: ").append(power(wiring.ground())).append('\n');
    text.append("  netlist: ").append(QuoteHint.quoted(netlist)).append('\n');
    text.append("  kinds:\n");
    kinds()
        .forEach(
            (pattern, kind) ->
                text.append("    ")
                    .append(QuoteHint.quoted(pattern))
                    .append(": ")
                    .append(kind)
                    .append('\n'));
    return text.toString();
  }

  private String power(int net) {
    String name = QuoteHint.quoted(wiring.nets().get(net).name());
    String pin = wiring.powerPins().get(net);
    return pin == null ? name : "{net: " + name + ", at: " + pin + "}";
  }

  /**
   * Kinds by pattern: references that differ in their numbers alone share one, unless they are of
   * different kinds.
   */
  private Map<String, String> kinds() {
    Map<String, TreeSet<String>> byPattern = new LinkedHashMap<>();
    for (Part part : wiring.parts()) {
      byPattern.computeIfAbsent(pattern(part), fresh -> new TreeSet<>()).add(kind(part));
    }
    Map<String, String> kinds = new LinkedHashMap<>();
    for (Part part : wiring.parts()) {
      boolean shared = byPattern.get(pattern(part)).size() == 1;
      kinds.put(shared ? pattern(part) : part.name(), kind(part));
    }
    return kinds;
  }

  private static String pattern(Part part) {
    return part.name().replaceAll("\\d+", "*");
  }

  private static String kind(Part part) {
    if (part instanceof Relay relay) {
      return "{relay: " + QuoteHint.quoted(relay.type().name()) + "}";
    }
    if (part instanceof Resistor resistor) {
      long milliohms = Math.round(resistor.ohms() * MILLI);
      return "{resistor: " + Quantity.RESISTANCE.text(milliohms) + "}";
    }
    if (part instanceof Lamp lamp) {
      List<String> rating =
          List.of(
              Quantity.VOLTAGE.text(lamp.millivolts()), Quantity.CURRENT.text(lamp.milliamps()));
      return "{lamp: " + String.join(" ", rating) + "}";
    }
    if (part instanceof Fuse fuse) {
      return "{fuse: " + Quantity.CURRENT.text(fuse.milliamps()) + "}";
    }
    if (part instanceof Diode) {
      return "diode";
    }
    if (part instanceof Wire) {
      return "wire";
    }
    throw new IllegalArgumentException("no kind for " + part);
  }
}
