package cardproof.sim.circuit;

import cardproof.card.wiring.Wiring;
import java.util.List;
import java.util.Map;

/**
 * A card as it was really soldered. A fault that is always there is an edit of the wiring; the rest
 * says what comes and goes, and what is slow.
 *
 * @param switches what comes and goes
 * @param slowerByUs by the name of a relay: how much longer it takes to operate and to release
 */
public record FaultyWiring(
    Wiring wiring, List<SpellSwitch> switches, Map<String, Long> slowerByUs) {
  public FaultyWiring {
    switches = List.copyOf(switches);
    slowerByUs = Map.copyOf(slowerByUs);
  }

  /** A card with nothing that comes and goes. */
  public static FaultyWiring always(Wiring wiring) {
    return new FaultyWiring(wiring, List.of(), Map.of());
  }
}
