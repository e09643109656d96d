package cardproof.link;

import java.util.List;

/**
 * Changes that a step with capture kept, in the order seen.
 *
 * @param number of the step
 * @param kept edges in all
 * @param unkept edges that were seen after the last one that was kept; stops at 65535
 * @param first index of the first edge here
 * @param edges those of this part; all once assembled
 */
public record Edges(int number, int kept, int unkept, int first, List<Edge> edges)
    implements Message {
  /** A fixture that captures edges has no more watches than this. */
  public static final int MOST_WATCHES = 128;

  public Edges {
    edges = List.copyOf(edges);
  }

  /** Most edges in one frame of so many bytes before COBS. */
  public static int mostInFrame(int longestFrame) {
    return EdgesFormat.mostInFrame(longestFrame);
  }
}
