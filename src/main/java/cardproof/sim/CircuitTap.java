package cardproof.sim;

import cardproof.card.wiring.Wiring;
import cardproof.sim.circuit.CircuitObserver;
import cardproof.sim.circuit.NetLevel;
import cardproof.sim.circuit.RelayCircuit;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/**
 * Tells of nets as they stand, and of lines as a fixture sees them: a line between the levels stays
 * where it was.
 */
final class CircuitTap implements CircuitObserver {
  private final RelayCircuit relays;
  private final WaveListener who;
  private final List<List<Integer>> linesOfNet = new ArrayList<>();
  private final BitSet told = new BitSet();
  private final BitSet ones = new BitSet();

  CircuitTap(RelayCircuit relays, Wiring wiring, WaveListener who) {
    this.relays = relays;
    this.who = who;
    wiring.nets().forEach(net -> linesOfNet.add(new ArrayList<>()));
    for (int line = 0; line < wiring.lineNets().size(); line++) {
      linesOfNet.get(wiring.lineNets().get(line)).add(line);
    }
  }

  @Override
  public void net(long timeNs, int net, NetLevel level) {
    who.netChanged(timeNs, net, level);
    for (int line : linesOfNet.get(net)) {
      boolean seen = relays.level(line);
      if (!told.get(line) || ones.get(line) != seen) {
        told.set(line);
        ones.set(line, seen);
        who.lineChanged(timeNs, line, seen);
      }
    }
  }

  @Override
  public void supply(long timeNs, long microamps, long millivolts) {
    who.supplyChanged(timeNs, millivolts, microamps);
  }
}
