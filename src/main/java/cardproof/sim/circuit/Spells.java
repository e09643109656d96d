package cardproof.sim.circuit;

import java.util.List;

/** Switches that come and go: what is due when. Not thread safe. */
final class Spells {
  private static final int LOOK_AHEAD = 256;

  private final List<SpellSwitch> all;
  private final int firstSwitch;
  private final TimedHeap heap;

  Spells(List<SpellSwitch> all, int firstSwitch) {
    this.all = all;
    this.firstSwitch = firstSwitch;
    this.heap = new TimedHeap(all.size());
  }

  /** As they are in the dwell that starts at 0. */
  void powerOn(boolean[] closed) {
    for (int i = 0; i < all.size(); i++) {
      closed[firstSwitch + i] = closedIn(i, 0);
      plan(i, 0);
    }
  }

  long nextNs() {
    return heap.firstTime();
  }

  void fire(Nets nets) {
    int i = heap.first();
    long dwell = heap.firstTime() / all.get(i).spell().dwellNs();
    nets.set(firstSwitch + i, closedIn(i, dwell));
    plan(i, dwell);
  }

  private void plan(int i, long dwell) {
    Spell spell = all.get(i).spell();
    if (spell.probability() == 0 || spell.probability() == 1) {
      heap.remove(i);
      return;
    }
    boolean now = closedIn(i, dwell);
    long next = dwell + 1;
    while (next < dwell + LOOK_AHEAD && closedIn(i, next) == now) {
      next++;
    }
    heap.put(i, next * spell.dwellNs(), i);
  }

  private boolean closedIn(int i, long dwell) {
    SpellSwitch one = all.get(i);
    boolean present = Draws.unit(Draws.key(one.spell().key(), dwell)) < one.spell().probability();
    return present == one.closedWhilePresent();
  }
}
