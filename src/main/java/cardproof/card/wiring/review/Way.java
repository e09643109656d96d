package cardproof.card.wiring.review;

import java.util.List;

/**
 * A way for current, contact by contact.
 *
 * @param from node that it begins at
 * @param links numbers, in the order in which current goes through them
 * @param to node that it ends at
 */
record Way(int from, List<Integer> links, int to) {
  Way {
    links = List.copyOf(links);
  }
}
