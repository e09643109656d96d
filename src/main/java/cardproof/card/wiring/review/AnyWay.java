package cardproof.card.wiring.review;

import cardproof.card.wiring.Terminal;
import java.util.ArrayDeque;
import java.util.BitSet;
import java.util.Deque;

/**
 * What could ever be reached, contacts taken as closed both ways at once: more than any state of
 * the relays allows, so that what is not reached here is never reached. Immutable.
 */
final class AnyWay {
  private final BitSet high;
  private final BitSet low;

  private AnyWay(BitSet high, BitSet low) {
    this.high = high;
    this.low = low;
  }

  static AnyWay of(Circuit circuit, Ends ends) {
    return new AnyWay(from(circuit, ends.sources(), true), from(circuit, ends.sinks(), false));
  }

  /** Every node that current from these reaches, or from which it reaches them. */
  private static BitSet from(Circuit circuit, BitSet starts, boolean along) {
    BitSet reached = (BitSet) starts.clone();
    Deque<Integer> waiting = new ArrayDeque<>();
    starts.stream().forEach(waiting::add);
    while (!waiting.isEmpty()) {
      int node = waiting.remove();
      if (circuit.isRail(node) && !starts.get(node)) {
        continue;
      }
      for (int l : circuit.at(node)) {
        Link link = circuit.link(l);
        int other = link.other(node);
        if (link.leaves(along ? node : other) && !reached.get(other)) {
          reached.set(other);
          waiting.add(other);
        }
      }
    }
    return reached;
  }

  /** Whether the supply, or a line when driven, could reach it. */
  boolean canBeHigh(int node) {
    return node != Terminal.NOT_WIRED && high.get(node);
  }

  /** Whether it could have a way to ground. */
  boolean canBeLow(int node) {
    return node != Terminal.NOT_WIRED && low.get(node);
  }
}
