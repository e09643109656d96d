package cardproof.sim.circuit;

import java.util.Arrays;
import java.util.BitSet;

/**
 * Current through each fuse. Fuses drop nothing, so levels do not tell; but what leaves each piece
 * of metal between fuses through loads and diodes is known, and has to come in through them. Where
 * several fuses lead to one piece, they share as equal resistances would.
 */
final class FuseMeter {
  private static final int NONE = -1;
  private static final double FUSE_SIEMENS = 1;

  private final Elements parts;
  private final NodalSolver solver = new NodalSolver();

  FuseMeter(Elements parts) {
    this.parts = parts;
  }

  /** Amperes by fuse; 0 for one that is blown. */
  double[] amps(Nets nets, BitSet blown) {
    UnionFind metal = metal(nets.closed);
    int supply = metal.find(parts.wiring.supply());
    int ground = metal.find(parts.wiring.ground());
    int[] place = new int[parts.wiring.nets().size()];
    Arrays.fill(place, NONE);
    int count = 0;
    for (int f = 0; f < parts.fuses.size(); f++) {
      for (int net : new int[] {parts.fuses.get(f).first(), parts.fuses.get(f).second()}) {
        int piece = metal.find(net);
        if (piece != supply && piece != ground && place[piece] == NONE) {
          place[piece] = count++;
        }
      }
    }
    solver.start(count);
    addFuses(metal, place, blown);
    addLoads(metal, place, nets);
    addDiodes(metal, place, nets);
    return through(solver.solve(), metal, place, blown);
  }

  private UnionFind metal(boolean[] closed) {
    UnionFind joined = new UnionFind(parts.wiring.nets().size());
    parts.wires.forEach(wire -> joined.join(wire.first(), wire.second()));
    for (int one = 0; one < closed.length; one++) {
      if (closed[one]) {
        joined.join(parts.switches.get(one).first(), parts.switches.get(one).second());
      }
    }
    return joined;
  }

  /** A rail gives or takes what is wanted. */
  private void addFuses(UnionFind metal, int[] place, BitSet blown) {
    for (int f = 0; f < parts.fuses.size(); f++) {
      int a = place[metal.find(parts.fuses.get(f).first())];
      int b = place[metal.find(parts.fuses.get(f).second())];
      if (blown.get(f) || a == b) {
        continue;
      }
      if (a != NONE && b != NONE) {
        solver.between(a, b, FUSE_SIEMENS);
      } else {
        solver.toFixed(Math.max(a, b), 0, FUSE_SIEMENS);
      }
    }
  }

  private void addLoads(UnionFind metal, int[] place, Nets nets) {
    for (int load = 0; load < parts.loads.size(); load++) {
      Elements.Load one = parts.loads.get(load);
      double across = nets.volts[nets.topology.loadA[load]] - nets.volts[nets.topology.loadB[load]];
      flows(place[metal.find(one.first())], place[metal.find(one.second())], across / one.ohms());
    }
  }

  private void addDiodes(UnionFind metal, int[] place, Nets nets) {
    for (int d = 0; d < parts.diodes.size(); d++) {
      Elements.Between one = parts.diodes.get(d);
      double across = nets.volts[nets.topology.anode[d]] - nets.volts[nets.topology.cathode[d]];
      double amps = Math.max(0, across - DiodeModel.VOLTS) / DiodeModel.OHMS;
      flows(place[metal.find(one.first())], place[metal.find(one.second())], amps);
    }
  }

  private void flows(int from, int to, double amps) {
    if (from != NONE) {
      solver.inject(from, -amps);
    }
    if (to != NONE) {
      solver.inject(to, amps);
    }
  }

  private double[] through(double[] level, UnionFind metal, int[] place, BitSet blown) {
    double[] amps = new double[parts.fuses.size()];
    for (int f = 0; f < amps.length; f++) {
      int a = place[metal.find(parts.fuses.get(f).first())];
      int b = place[metal.find(parts.fuses.get(f).second())];
      double across = (a == NONE ? 0 : level[a]) - (b == NONE ? 0 : level[b]);
      amps[f] = blown.get(f) || a == b ? 0 : Math.abs(across) * FUSE_SIEMENS;
    }
    return amps;
  }
}
