package cardproof.card.wiring.review;

import java.util.BitSet;
import java.util.List;

/**
 * Where current comes from and where it goes.
 *
 * @param sources nodes of the supply and of every line that may be driven
 * @param sinks the node of ground
 */
record Ends(BitSet sources, BitSet sinks) {
  static Ends of(Circuit circuit, List<EdgeLine> lines) {
    BitSet sources = new BitSet();
    sources.set(circuit.supply());
    for (int line = 0; line < lines.size(); line++) {
      if (lines.get(line).driven()) {
        sources.set(circuit.lineNode(line));
      }
    }
    sources.clear(circuit.ground());
    BitSet sinks = new BitSet();
    sinks.set(circuit.ground());
    return new Ends(sources, sinks);
  }
}
