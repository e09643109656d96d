package cardproof.card.wiring.review;

import cardproof.card.wiring.Wiring;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * How the relays of a wiring hang on one another.
 *
 * @param longest the longest chain; relays that feed one another are taken once each, and one that
 *     holds itself counts once
 * @param unseen the longest chain that may move with no watched line changing, its last relay the
 *     one that shows, or the tail that never does: it sets the quiet floor
 * @param unseenByOutput the same, ended by a change of that watched line
 */
public record Chains(Chain longest, Chain unseen, Map<String, Chain> unseenByOutput) {
  public Chains {
    unseenByOutput = Collections.unmodifiableMap(new LinkedHashMap<>(unseenByOutput));
  }

  /**
   * Much quicker than a whole {@link Review}. Where wires alone join supply and ground there are no
   * chains.
   *
   * @param lines of the card, by index
   */
  public static Chains of(Wiring wiring, List<EdgeLine> lines) {
    Circuit circuit = new Circuit(wiring);
    return circuit.supply() == circuit.ground()
        ? new Chains(new Chain(List.of()), new Chain(List.of()), Map.of())
        : of(circuit, lines);
  }

  static Chains of(Circuit circuit, List<EdgeLine> lines) {
    Networks networks = new Networks(circuit, lines);
    AnyWay anyWay = AnyWay.of(circuit, Ends.of(circuit, lines));
    Dependencies dependencies = new Dependencies(circuit, networks, anyWay);
    Sightings sightings = new Sightings(circuit, lines, networks, dependencies);
    Silence silence = new Silence(dependencies, sightings);
    Map<String, Chain> byOutput = new LinkedHashMap<>();
    for (int line = 0; line < lines.size(); line++) {
      if (lines.get(line).watched()) {
        Network network = networks.toSupply(circuit.lineNode(line));
        List<Integer> chain = silence.longestUpTo(sightings.changing(network));
        byOutput.put(lines.get(line).name(), named(circuit, chain));
      }
    }
    return new Chains(
        named(circuit, dependencies.longest()), named(circuit, silence.longest()), byOutput);
  }

  private static Chain named(Circuit circuit, List<Integer> relays) {
    return new Chain(relays.stream().map(circuit::relayName).toList());
  }
}
