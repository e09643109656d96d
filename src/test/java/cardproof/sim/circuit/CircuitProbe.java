package cardproof.sim.circuit;

import cardproof.card.Supply;
import cardproof.card.wiring.Wiring;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/** A circuit with somebody at its lines, who drives words and watches every line. */
final class CircuitProbe {
  static final Supply SUPPLY = new Supply(12_000, 5_000);
  private static final long PATIENCE_NS = 20_000_000_000L;

  record Edge(long ns, int line, boolean level) {}

  final RelayCircuit circuit;
  final List<Edge> edges = new ArrayList<>();
  long changes;
  boolean keep;
  private long nowNs;

  CircuitProbe(RelayCircuit circuit) {
    this.circuit = circuit;
    circuit.onChange(
        line -> {
          changes++;
          if (keep) {
            edges.add(new Edge(circuit.nowNs(), line, circuit.level(line)));
          }
        });
  }

  static CircuitProbe of(Wiring wiring, long unit) {
    return of(FaultyWiring.always(wiring), unit);
  }

  static CircuitProbe of(FaultyWiring card, long unit) {
    return of(card, unit, 0);
  }

  /**
   * @param firstWatched the first line that is watched, and so loaded
   */
  static CircuitProbe of(FaultyWiring card, long unit, int firstWatched) {
    BitSet watched = new BitSet();
    watched.set(firstWatched, card.wiring().lineNets().size());
    return new CircuitProbe(new RelayCircuit(card, SUPPLY, watched, RelayCircuit.WATCH_OHMS, unit));
  }

  long nowNs() {
    return nowNs;
  }

  void drive(long word) {
    circuit.drive(nowNs, BitSet.valueOf(new long[] {word}));
  }

  void advance(long untilNs) {
    circuit.advance(untilNs);
    nowNs = untilNs;
  }

  /** Goes on until nothing is due. */
  void rest() {
    long endNs = nowNs + PATIENCE_NS;
    while (circuit.nextChangeNs() != TimedHeap.NEVER) {
      if (nowNs > endNs) {
        throw new AssertionError("not at rest after " + PATIENCE_NS + " ns");
      }
      advance(circuit.nextChangeNs());
    }
  }

  long word(int firstLine, int width) {
    long word = 0;
    for (int i = 0; i < width; i++) {
      word |= circuit.level(firstLine + i) ? 1L << i : 0;
    }
    return word;
  }
}
