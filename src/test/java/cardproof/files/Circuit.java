package cardproof.files;

import cardproof.card.wiring.Part;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Terminal;
import cardproof.card.wiring.Wiring;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;

/** A wiring by its names alone, so that two can be compared whatever their nets are numbered. */
final class Circuit {
  private Circuit() {}

  /** Every part with its kind and the net of each wired terminal, by its name. */
  static Map<String, String> parts(Wiring wiring) {
    Map<String, String> parts = new TreeMap<>();
    for (Part part : wiring.parts()) {
      String nets =
          part.terminals().stream()
              .filter(Terminal::wired)
              .map(t -> t.name() + "=" + wiring.nets().get(t.net()))
              .collect(Collectors.joining(" "));
      parts.put(part.name(), kind(part) + " " + nets);
    }
    return parts;
  }

  private static String kind(Part part) {
    return part instanceof Relay relay
        ? relay.type().name()
        // the record's own text without places, which differ, and nets, which are named above
        : part.getClass().getSimpleName()
            + part.toString()
                .replaceAll(".*?(ohms|millivolts|milliamps)=", "$1=")
                .replaceAll(", spot=.*", "")
                .replaceAll("^[A-Z].*", "");
  }

  /** Names of the lines' nets, by line index, then those of supply and ground. */
  static String ends(Wiring wiring) {
    return wiring.lineNets().stream()
            .map(net -> wiring.nets().get(net).name())
            .collect(Collectors.joining(" "))
        + " "
        + wiring.nets().get(wiring.supply())
        + " "
        + wiring.nets().get(wiring.ground());
  }
}
