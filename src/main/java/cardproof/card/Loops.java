package cardproof.card;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.function.IntFunction;

/** Finds a circle in a "reads" relation by walking depth first. */
final class Loops {
  private final BitSet among;
  private final IntFunction<BitSet> reads;
  private final BitSet done = new BitSet();
  private final List<Integer> path = new ArrayList<>();

  private Loops(BitSet among, IntFunction<BitSet> reads) {
    this.among = among;
    this.reads = reads;
  }

  /**
   * A circle through the nodes of {@code among}, in the order in which a change travels round it,
   * its first node repeated at the end. One through several nodes is preferred to a node that reads
   * itself, since every state does that to hold its value.
   */
  static Optional<List<Integer>> find(BitSet among, IntFunction<BitSet> reads) {
    return search(among, node -> without(node, reads.apply(node))).or(() -> search(among, reads));
  }

  private static BitSet without(int node, BitSet read) {
    BitSet others = (BitSet) read.clone();
    others.clear(node);
    return others;
  }

  private static Optional<List<Integer>> search(BitSet among, IntFunction<BitSet> reads) {
    Loops search = new Loops(among, reads);
    for (int node = among.nextSetBit(0); node >= 0; node = among.nextSetBit(node + 1)) {
      Optional<List<Integer>> loop = search.from(node);
      if (loop.isPresent()) {
        return loop;
      }
    }
    return Optional.empty();
  }

  private Optional<List<Integer>> from(int node) {
    int seen = path.indexOf(node);
    if (seen >= 0) {
      List<Integer> circle = new ArrayList<>(path.subList(seen, path.size()));
      circle.add(node);
      Collections.reverse(circle);
      return Optional.of(circle);
    }
    if (done.get(node)) {
      return Optional.empty();
    }
    path.add(node);
    BitSet read = reads.apply(node);
    for (int next = read.nextSetBit(0); next >= 0; next = read.nextSetBit(next + 1)) {
      if (among.get(next)) {
        Optional<List<Integer>> loop = from(next);
        if (loop.isPresent()) {
          return loop;
        }
      }
    }
    path.remove(path.size() - 1);
    done.set(node);
    return Optional.empty();
  }
}
