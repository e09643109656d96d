package cardproof.card.wiring.review;

import java.util.ArrayDeque;
import java.util.Deque;

/**
 * Where a coil's current can go once its feed has opened: from its low end to its high end through
 * diodes, or through lamps and resistors that do not let the voltage rise too far. Contacts do not
 * count, since they may be open.
 */
final class Flyback {
  /** The coil's current through ten times its own resistance is ten times the supply. */
  private static final double MOST_OHMS_PER_COIL_OHM = 10;

  private final Circuit circuit;

  Flyback(Circuit circuit) {
    this.circuit = circuit;
  }

  /** Whether there is a way for the current. */
  boolean exists(Load coil, int highEnd, int lowEnd) {
    return reaches(coil, lowEnd, highEnd, true);
  }

  private boolean isDiode(Load coil, int highEnd, int lowEnd) {
    return reaches(coil, lowEnd, highEnd, false);
  }

  /** Whether diodes alone join the coil's ends, whichever is the high one: it releases slowly. */
  boolean slows(Load coil) {
    return coil.first() >= 0
        && coil.second() >= 0
        && (isDiode(coil, coil.first(), coil.second())
            || isDiode(coil, coil.second(), coil.first()));
  }

  private boolean reaches(Load coil, int from, int to, boolean throughLoads) {
    boolean[] reached = new boolean[circuit.nodes()];
    Deque<Integer> waiting = new ArrayDeque<>();
    reached[from] = true;
    waiting.add(from);
    while (!waiting.isEmpty()) {
      int node = waiting.remove();
      if (node == to) {
        return true;
      }
      for (int l : circuit.at(node)) {
        Link link = circuit.link(l);
        if (!link.isContact() && link.leaves(node) && !reached[link.other(node)]) {
          reached[link.other(node)] = true;
          waiting.add(link.other(node));
        }
      }
      if (!throughLoads) {
        continue;
      }
      for (Load load : circuit.loadsAt(node)) {
        int other = load.other(node);
        if (!load.isCoil()
            && load.ohms() <= MOST_OHMS_PER_COIL_OHM * coil.ohms()
            && other >= 0
            && !reached[other]) {
          reached[other] = true;
          waiting.add(other);
        }
      }
    }
    return false;
  }
}
