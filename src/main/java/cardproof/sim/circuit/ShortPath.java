package cardproof.sim.circuit;

import cardproof.card.wiring.Fuse;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;

/** Where a short goes: the shortest way from the supply to ground, net by net. */
final class ShortPath {
  /**
   * @param fuse its number, or below 0 for what is not one
   */
  private record Step(int from, int to, int fuse) {}

  private final Elements parts;
  private final List<List<Step>> steps = new ArrayList<>();

  private ShortPath(Elements parts, boolean[] closed, BitSet blown) {
    this.parts = parts;
    for (int n = 0; n < parts.wiring.nets().size(); n++) {
      steps.add(new ArrayList<>());
    }
    parts.wires.forEach(wire -> both(wire.first(), wire.second(), -1));
    parts.diodes.forEach(d -> steps.get(d.first()).add(new Step(d.first(), d.second(), -1)));
    for (int one = 0; one < closed.length; one++) {
      if (closed[one]) {
        both(parts.switches.get(one).first(), parts.switches.get(one).second(), -1);
      }
    }
    for (int f = 0; f < parts.fuses.size(); f++) {
      if (!blown.get(f)) {
        Fuse fuse = parts.fuses.get(f);
        both(fuse.first(), fuse.second(), f);
      }
    }
  }

  private void both(int one, int other, int fuse) {
    steps.get(one).add(new Step(one, other, fuse));
    steps.get(other).add(new Step(other, one, fuse));
  }

  /** Fuses on the way of a short, empty where there is no short or no fuse on its way. */
  static BitSet fuses(Elements parts, boolean[] closed, BitSet blown) {
    return new ShortPath(parts, closed, blown).fuses();
  }

  private BitSet fuses() {
    int supply = parts.wiring.supply();
    int ground = parts.wiring.ground();
    Step[] by = new Step[steps.size()];
    boolean[] seen = new boolean[steps.size()];
    Arrays.fill(by, null);
    ArrayDeque<Integer> queue = new ArrayDeque<>(List.of(supply));
    seen[supply] = true;
    while (!queue.isEmpty() && !seen[ground]) {
      for (Step step : steps.get(queue.remove())) {
        if (!seen[step.to]) {
          seen[step.to] = true;
          by[step.to] = step;
          queue.add(step.to);
        }
      }
    }
    BitSet found = new BitSet();
    for (Step step = by[ground]; step != null; step = by[step.from]) {
      if (step.fuse >= 0) {
        found.set(step.fuse);
      }
    }
    return found;
  }
}
