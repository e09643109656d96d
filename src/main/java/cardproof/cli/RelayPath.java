package cardproof.cli;

import cardproof.card.Card;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Relay;
import cardproof.log.LineName;
import cardproof.log.VectorRecord;
import cardproof.sim.circuit.FaultyWiring;
import cardproof.sim.circuit.RelayCircuit;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/**
 * The relays whose coils change in a transition, in the order in which they do by the card's
 * wiring: the way by which it takes so long. Of cards that hold nothing alone, since of others
 * nobody knows here what they held.
 */
final class RelayPath {
  private static final long NS_PER_US = 1000;
  private static final long ANY_UNIT = 1;

  private final RelayCircuit circuit;
  private final List<String> names;
  private final long longestNs;
  private long nowNs;

  private RelayPath(Card card, BitSet watched) {
    this.circuit =
        new RelayCircuit(
            FaultyWiring.always(card.wiring().orElseThrow()),
            card.supply(),
            watched,
            RelayCircuit.WATCH_OHMS,
            ANY_UNIT);
    this.names =
        card.wiring().orElseThrow().parts().stream()
            .filter(Relay.class::isInstance)
            .map(Part::name)
            .toList();
    this.longestNs = card.limits().watchUs() * NS_PER_US;
  }

  /** Names of relays; empty where the wiring does not say. */
  static List<String> of(Card card, List<LineName> lines, VectorRecord before, VectorRecord now) {
    if (card.wiring().isEmpty() || card.hasState()) {
      return List.of();
    }
    BitSet watched = new BitSet();
    lines.stream().filter(LineName::watched).forEach(line -> watched.set(line.line()));
    RelayPath path = new RelayPath(card, watched);
    path.changed(before.level());
    return path.changed(now.level());
  }

  /** Drives so, and lets the card come to rest, or as far as it is watched. */
  private List<String> changed(BitSet level) {
    List<String> changed = new ArrayList<>();
    BitSet energised = energised();
    circuit.drive(nowNs, level);
    long untilNs = nowNs + longestNs;
    note(energised, changed);
    for (long next = circuit.nextChangeNs(); next <= untilNs; next = circuit.nextChangeNs()) {
      circuit.advance(next);
      note(energised, changed);
    }
    nowNs = untilNs;
    circuit.advance(untilNs);
    return changed;
  }

  private void note(BitSet energised, List<String> changed) {
    BitSet now = energised();
    BitSet turned = (BitSet) now.clone();
    turned.xor(energised);
    turned.stream()
        .mapToObj(names::get)
        .filter(name -> !changed.contains(name))
        .forEach(changed::add);
    energised.clear();
    energised.or(now);
  }

  private BitSet energised() {
    BitSet energised = new BitSet();
    for (int relay = 0; relay < names.size(); relay++) {
      energised.set(relay, circuit.isEnergised(relay));
    }
    return energised;
  }
}
