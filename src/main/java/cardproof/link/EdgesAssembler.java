package cardproof.link;

import java.util.List;
import java.util.Optional;

/**
 * Puts the edges of one step together, in whatever order and number of repeats their frames come.
 * Not thread-safe.
 */
final class EdgesAssembler {
  private final int number;
  private Edge[] edges = {};
  private int unkept;
  private boolean begun;

  EdgesAssembler(int number) {
    this.number = number;
  }

  /** Takes a frame of edges of this step. */
  void add(Edges part) {
    if (part.number() != number) {
      throw new IllegalArgumentException("step " + part.number() + ", not " + number);
    }
    if (!begun || edges.length != part.kept()) {
      edges = new Edge[part.kept()];
      begun = true;
    }
    unkept = part.unkept();
    int at = part.first();
    for (Edge edge : part.edges()) {
      edges[at++] = edge;
    }
  }

  /** Index of the first edge that is missing. */
  int missing() {
    int at = 0;
    while (at < edges.length && edges[at] != null) {
      at++;
    }
    return at;
  }

  /** All edges, once all are there. */
  Optional<KeptEdges> whole() {
    boolean complete = begun && missing() == edges.length;
    return complete ? Optional.of(new KeptEdges(List.of(edges), unkept)) : Optional.empty();
  }
}
