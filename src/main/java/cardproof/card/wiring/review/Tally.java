package cardproof.card.wiring.review;

import cardproof.card.wiring.Diode;
import cardproof.card.wiring.Lamp;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Wiring;
import java.util.Collections;
import java.util.Map;
import java.util.TreeMap;

/**
 * What a wiring is made of.
 *
 * @param relaysByType how many of each type, by the type's name
 * @param polesUsed with at least one terminal wired
 * @param otherParts fuses, resistors and wires
 */
public record Tally(
    Map<String, Integer> relaysByType,
    int polesUsed,
    int polesSpare,
    int diodes,
    int lamps,
    int otherParts) {
  public Tally {
    relaysByType = Collections.unmodifiableMap(new TreeMap<>(relaysByType));
  }

  public int relays() {
    return relaysByType.values().stream().mapToInt(Integer::intValue).sum();
  }

  static Tally of(Wiring wiring) {
    Map<String, Integer> byType = new TreeMap<>();
    int used = 0;
    int poles = 0;
    int diodes = 0;
    int lamps = 0;
    int others = 0;
    for (Part part : wiring.parts()) {
      if (part instanceof Relay relay) {
        byType.merge(relay.type().name(), 1, Integer::sum);
        used += (int) relay.poles().stream().filter(Words::isWired).count();
        poles += relay.poles().size();
      } else if (part instanceof Diode) {
        diodes++;
      } else if (part instanceof Lamp) {
        lamps++;
      } else {
        others++;
      }
    }
    return new Tally(byType, used, poles - used, diodes, lamps, others);
  }
}
