package cardproof.card.wiring.review;

import java.util.BitSet;
import java.util.List;

/**
 * All that decides whether a node has a way to one rail: the links that lie on some way there which
 * goes through no node twice, and the lines whose being driven ends such a way.
 *
 * @param links numbers of links; directions of diodes are not looked at, so there may be too many
 * @param relays that have contacts among the links
 * @param lines by line index
 */
record Network(int node, boolean toSupply, List<Integer> links, BitSet relays, BitSet lines) {
  int variables() {
    return relays.cardinality() + lines.cardinality();
  }
}
