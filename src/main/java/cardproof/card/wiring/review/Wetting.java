package cardproof.card.wiring.review;

import cardproof.card.wiring.RelayType;
import cardproof.card.wiring.Terminal;
import cardproof.card.wiring.Wiring;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * What the contacts behind one watched line carry, the fixture's own load left out.
 *
 * @param line its index
 * @param milliamps of the card's own loads on the line
 * @param type of the contacts on the line that want the largest load
 */
public record Wetting(int line, String name, double milliamps, RelayType type) {
  /**
   * @param lines of the card, by index
   * @return of watched lines that end at a contact whose type states the least load it wants
   */
  public static List<Wetting> of(Wiring wiring, List<EdgeLine> lines, long supplyMillivolts) {
    Circuit circuit = new Circuit(wiring);
    List<Wetting> all = new ArrayList<>();
    for (int line = 0; line < lines.size(); line++) {
      int node = circuit.lineNode(line);
      if (!lines.get(line).watched() || circuit.isRail(node)) {
        continue;
      }
      Optional<RelayType> strictest = strictest(circuit, node);
      if (strictest.isPresent()) {
        double milliamps =
            circuit.loadsAt(node).stream()
                .filter(load -> load.other(node) != Terminal.NOT_WIRED)
                .mapToDouble(load -> load.milliamps(supplyMillivolts))
                .sum();
        all.add(new Wetting(line, lines.get(line).name(), milliamps, strictest.get()));
      }
    }
    return List.copyOf(all);
  }

  private static Optional<RelayType> strictest(Circuit circuit, int node) {
    List<RelayType> types = new ArrayList<>();
    for (int number : circuit.at(node)) {
      Link link = circuit.link(number);
      if (link.isContact()) {
        types.add(circuit.relays().get(link.relay()).type());
      }
    }
    return types.stream()
        .filter(type -> type.contactMilliamps() > 0)
        .max(Comparator.comparingLong(RelayType::contactMilliamps));
  }
}
