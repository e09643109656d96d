package cardproof.sim.circuit;

import cardproof.card.Card;
import cardproof.card.TestWirings;
import cardproof.card.fault.Fault;
import cardproof.card.fault.FaultNames;
import cardproof.card.wiring.Wiring;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Random;

/** An adder of relay contacts on a bench, with something wrong with it, and what it adds up to. */
final class FaultyAdder {
  /** Watching goes on this long after each drive; the slowest carry takes a tenth of it. */
  private static final long WATCH_NS = 3_000_000_000L;

  final Card card;
  final Wiring sound;
  private final int bits;
  private final BitSet outputs = new BitSet();

  FaultyAdder(int bits) {
    this.bits = bits;
    this.card = TestWirings.adder(bits);
    this.sound = card.wiring().orElseThrow();
    outputs.set(2 * bits + 1, card.lines().size());
  }

  RelayCircuit circuit(List<Fault> faults, long unit) {
    FaultyWiring faulty = Faults.put(sound, card, faults, unit);
    return new RelayCircuit(
        faulty, card.supply(), outputs, RelayCircuit.WATCH_OHMS, Draws.key(unit, "unit"));
  }

  RelayCircuit circuit(long unit, String... faults) {
    return circuit(FaultNames.parseAll(List.of(faults), card), unit);
  }

  BitSet word(long a, long b, long carry) {
    return BitSet.valueOf(new long[] {a | b << bits | carry << 2 * bits});
  }

  long sum(RelayCircuit circuit) {
    long sum = 0;
    for (int i = 0; i <= bits; i++) {
      sum |= circuit.level(2 * bits + 1 + i) ? 1L << i : 0;
    }
    return sum;
  }

  /**
   * Eight vectors that find any one faulty cell of a ripple-carry adder (Cheng and Patel, IEEE
   * Trans. Computers, July 1987; the set was computed anew), then walking ones and random words.
   */
  List<long[]> vectors(long seed, int random) {
    long all = (1L << bits) - 1;
    long even = all & 0x5555_5555_5555_5555L;
    List<long[]> vectors =
        new ArrayList<>(
            List.of(
                new long[] {0, 0, 0},
                new long[] {0, all, 0},
                new long[] {0, all, 1},
                new long[] {all, 0, 0},
                new long[] {all, 0, 1},
                new long[] {all, all, 1},
                new long[] {even, even, 0},
                new long[] {all & ~even, all & ~even, 1}));
    Random draws = new Random(seed);
    for (int i = 0; i < random; i++) {
      vectors.add(new long[] {draws.nextLong() & all, draws.nextLong() & all, draws.nextInt(2)});
    }
    return vectors;
  }

  /** The first vector with a wrong sum, or with the supply tripped; -1 where there is none. */
  int firstWrong(RelayCircuit circuit, List<long[]> vectors) {
    long nowNs = 0;
    for (int v = 0; v < vectors.size(); v++) {
      long[] one = vectors.get(v);
      circuit.drive(nowNs, word(one[0], one[1], one[2]));
      nowNs += WATCH_NS;
      circuit.advance(nowNs);
      if (circuit.supplyTripped() || sum(circuit) != one[0] + one[1] + one[2]) {
        return v;
      }
    }
    return -1;
  }
}
