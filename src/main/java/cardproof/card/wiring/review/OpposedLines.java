package cardproof.card.wiring.review;

import cardproof.card.wiring.Wiring;
import java.util.BitSet;
import java.util.List;

/** Driven lines that something else may hold at the supply while a fixture drives them to 0. */
public final class OpposedLines {
  private OpposedLines() {}

  /**
   * @param lines of the card, by index
   * @return by line index: driven lines that the card can join to its supply, or to another driven
   *     line, through contacts and diodes; also those for which the search was given up
   */
  public static BitSet of(Wiring wiring, List<EdgeLine> lines) {
    Circuit circuit = new Circuit(wiring);
    WaySearch search = new WaySearch(circuit);
    BitSet opposed = new BitSet();
    for (int line = 0; line < lines.size(); line++) {
      if (lines.get(line).driven()) {
        int node = circuit.lineNode(line);
        BitSet others = others(circuit, lines, line);
        opposed.set(
            line, others.get(node) || search.wayTo(node, others).isPresent() || search.gaveUp());
      }
    }
    return opposed;
  }

  private static BitSet others(Circuit circuit, List<EdgeLine> lines, int line) {
    BitSet others = new BitSet();
    others.set(circuit.supply());
    for (int other = 0; other < lines.size(); other++) {
      if (other != line && lines.get(other).driven()) {
        others.set(circuit.lineNode(other));
      }
    }
    others.clear(circuit.ground());
    return others;
  }
}
