package cardproof.sim.circuit;

import cardproof.card.wiring.Fuse;
import java.util.Arrays;
import java.util.BitSet;

/**
 * Current through each fuse, from the whole card at once by nodal analysis with every fuse as a
 * small resistance. Slow, and asked only while enough flows to matter.
 */
final class FuseMeter {
  private static final double FUSE_OHMS = 0.01;

  private final Elements parts;
  private final NodalSolver solver = new NodalSolver();

  FuseMeter(Elements parts) {
    this.parts = parts;
  }

  /** Amperes by fuse; 0 for one that is blown. */
  double[] amps(boolean[] closed, BitSet blown, double supply) {
    UnionFind joined = new UnionFind(parts.wiring.nets().size());
    parts.wires.forEach(wire -> joined.join(wire.first(), wire.second()));
    for (int one = 0; one < closed.length; one++) {
      if (closed[one]) {
        joined.join(parts.switches.get(one).first(), parts.switches.get(one).second());
      }
    }
    int[] place = places(joined);
    Levels levels = new Levels(joined, place, supply);
    for (Elements.Load load : parts.loads) {
      levels.resistance(load.first(), load.second(), 1 / load.ohms());
    }
    parts.diodes.forEach(d -> levels.diode(d.first(), d.second()));
    for (int f = 0; f < parts.fuses.size(); f++) {
      if (!blown.get(f)) {
        levels.resistance(parts.fuses.get(f).first(), parts.fuses.get(f).second(), 1 / FUSE_OHMS);
      }
    }
    double[] level = solver.solve();
    double[] amps = new double[parts.fuses.size()];
    for (int f = 0; f < amps.length; f++) {
      Fuse fuse = parts.fuses.get(f);
      double across = levels.at(level, fuse.first()) - levels.at(level, fuse.second());
      amps[f] = blown.get(f) ? 0 : Math.abs(across) / FUSE_OHMS;
    }
    return amps;
  }

  private int[] places(UnionFind joined) {
    int[] place = new int[parts.wiring.nets().size()];
    Arrays.fill(place, -1);
    int count = 0;
    for (int net = 0; net < place.length; net++) {
      boolean rail =
          joined.find(net) == joined.find(parts.wiring.supply())
              || joined.find(net) == joined.find(parts.wiring.ground());
      if (joined.find(net) == net && !rail) {
        place[net] = count++;
      }
    }
    solver.start(count);
    return place;
  }

  /** Puts parts between nets into the solver. */
  private final class Levels {
    private final UnionFind joined;
    private final int[] place;
    private final double supply;
    private final int top;

    Levels(UnionFind joined, int[] place, double supply) {
      this.joined = joined;
      this.place = place;
      this.supply = supply;
      this.top = joined.find(parts.wiring.supply());
    }

    void resistance(int one, int other, double siemens) {
      int a = place[joined.find(one)];
      int b = place[joined.find(other)];
      if (a >= 0 && b >= 0 && a != b) {
        solver.between(a, b, siemens);
      } else if (a >= 0 && b < 0) {
        solver.toFixed(a, fixed(other), siemens);
      } else if (b >= 0 && a < 0) {
        solver.toFixed(b, fixed(one), siemens);
      }
    }

    void diode(int anode, int cathode) {
      int a = place[joined.find(anode)];
      int c = place[joined.find(cathode)];
      if (a >= 0 && c >= 0 && a != c) {
        solver.diodeBetween(a, c);
      } else if (a >= 0 && c < 0) {
        solver.diodeToFixed(a, fixed(cathode));
      } else if (c >= 0 && a < 0) {
        solver.diodeFromFixed(fixed(anode), c);
      }
    }

    double at(double[] level, int net) {
      int p = place[joined.find(net)];
      return p >= 0 ? level[p] : fixed(net);
    }

    private double fixed(int net) {
      return joined.find(net) == top ? supply : 0;
    }
  }
}
