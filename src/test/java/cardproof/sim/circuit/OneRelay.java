package cardproof.sim.circuit;

import cardproof.card.wiring.RelayType;
import cardproof.card.wiring.Wiring;
import java.util.ArrayList;
import java.util.List;

/** One relay with all its contacts on lines of their own, and what it does when it is switched. */
final class OneRelay {
  static final int POLES = 4;

  /**
   * What one operation looked like, from the drive on.
   *
   * @param ns until all contacts that are to make had made first
   * @param bounceNs of each contact that made, from its first make to its last change
   * @param firstBreakNs when the first contact broke
   * @param firstMakeNs when the first one made
   */
  record Operation(long ns, List<Long> bounceNs, long firstBreakNs, long firstMakeNs) {}

  final CircuitProbe probe;

  OneRelay(Wiring wiring, long unit) {
    // a watch on the coil's own line would be a resistance across the coil
    probe = CircuitProbe.of(FaultyWiring.always(wiring), unit, 1);
  }

  /** Line 0 is the coil, 1 to 4 the normally open contacts, 5 to 8 the normally closed ones. */
  static Solder soldered(RelayType type) {
    Solder solder = new Solder().line("A");
    Solder.Contact[] contacts = new Solder.Contact[POLES];
    for (int p = 0; p < POLES; p++) {
      solder.line("NO" + p);
      contacts[p] = Solder.contact(Solder.PLUS, "NO" + p, "NC" + p);
    }
    for (int p = 0; p < POLES; p++) {
      solder.line("NC" + p);
    }
    return solder.relay("K1", type, "A", Solder.GROUND, contacts);
  }

  Operation operate() {
    return change(1, 1);
  }

  Operation release() {
    return change(0, 1 + POLES);
  }

  private Operation change(long drive, int firstMaking) {
    probe.edges.clear();
    probe.keep = true;
    long startNs = probe.nowNs();
    probe.drive(drive);
    probe.rest();
    probe.advance(probe.nowNs() + 1_000_000);
    long[] first = new long[POLES];
    long[] last = new long[POLES];
    long breaks = Long.MAX_VALUE;
    for (CircuitProbe.Edge edge : probe.edges) {
      int pole = edge.line() - firstMaking;
      long ns = edge.ns() - startNs;
      if (edge.line() > 0 && pole >= 0 && pole < POLES) {
        first[pole] = first[pole] == 0 ? ns : first[pole];
        last[pole] = ns;
      } else if (edge.line() > 0) {
        breaks = Math.min(breaks, ns);
      }
    }
    List<Long> bounces = new ArrayList<>();
    long all = 0;
    long earliest = Long.MAX_VALUE;
    for (int p = 0; p < POLES; p++) {
      bounces.add(last[p] - first[p]);
      all = Math.max(all, first[p]);
      earliest = Math.min(earliest, first[p]);
    }
    return new Operation(all, bounces, breaks, earliest);
  }
}
