package cardproof.sim;

import cardproof.card.Card;
import cardproof.card.Fault;
import cardproof.card.LineStuck;
import cardproof.card.LinesExchanged;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Wire;
import cardproof.card.wiring.Wiring;
import cardproof.sim.circuit.FaultyWiring;
import cardproof.sim.circuit.RelayCircuit;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.function.IntConsumer;

/** A card simulated from its wiring, behind the same face as one simulated from its behaviour. */
final class WiredCircuit implements Circuit {
  private final RelayCircuit relays;
  private final Wiring wiring;

  private WiredCircuit(RelayCircuit relays, Wiring wiring) {
    this.relays = relays;
    this.wiring = wiring;
  }

  /**
   * @param card with wiring
   * @param lineOfWatch line by watch channel of the fixture, each of which loads its line
   * @param unit key of the unit, from which all its times are drawn
   */
  static WiredCircuit of(Card card, List<Fault> faults, int[] lineOfWatch, long unit) {
    BitSet watched = new BitSet();
    for (int line : lineOfWatch) {
      if (line != Channels.NOTHING) {
        watched.set(line);
      }
    }
    Wiring wiring = card.wiring().orElseThrow();
    for (Fault fault : faults) {
      wiring = with(wiring, fault);
    }
    return new WiredCircuit(
        new RelayCircuit(
            FaultyWiring.always(wiring), card.supply(), watched, RelayCircuit.WATCH_OHMS, unit),
        wiring);
  }

  private static Wiring with(Wiring wiring, Fault fault) {
    List<Integer> lines = new ArrayList<>(wiring.lineNets());
    List<Part> parts = new ArrayList<>(wiring.parts());
    if (fault instanceof LineStuck one) {
      int rail = one.atSupply() ? wiring.supply() : wiring.ground();
      int net = lines.get(one.line().index());
      parts.add(new Wire(fault.name(), net, rail, Optional.empty(), wiring.at()));
    } else if (fault instanceof LinesExchanged two) {
      Collections.swap(lines, two.first().index(), two.second().index());
    } else {
      throw new IllegalArgumentException("fault not known to this simulation: " + fault.name());
    }
    return new Wiring(wiring.nets(), wiring.supply(), wiring.ground(), lines, parts, wiring.at());
  }

  @Override
  public void onChange(IntConsumer lineChanged) {
    relays.onChange(lineChanged);
  }

  @Override
  public void tap(WaveListener who) {
    relays.observe(new CircuitTap(relays, wiring, who));
  }

  @Override
  public boolean fromWiring() {
    return true;
  }

  @Override
  public void drive(long nowNs, BitSet driven) {
    relays.drive(nowNs, driven);
  }

  @Override
  public long nextChangeNs() {
    return relays.nextChangeNs();
  }

  @Override
  public void advance(long nowNs) {
    relays.advance(nowNs);
  }

  @Override
  public boolean level(int line) {
    return relays.level(line);
  }

  @Override
  public boolean supplyTripped() {
    return relays.supplyTripped();
  }
}
