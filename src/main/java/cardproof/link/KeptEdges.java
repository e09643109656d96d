package cardproof.link;

import java.util.List;

/**
 * Every edge of a step with capture, as far as the fixture kept them.
 *
 * @param edges in the order seen
 * @param unkept how many came after the last one kept; stops at 65535
 */
public record KeptEdges(List<Edge> edges, int unkept) {
  /** Of a step without capture. */
  public static final KeptEdges NONE = new KeptEdges(List.of(), 0);

  public KeptEdges {
    edges = List.copyOf(edges);
  }
}
