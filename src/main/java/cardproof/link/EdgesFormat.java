package cardproof.link;

import java.util.List;
import java.util.stream.IntStream;

/**
 * EDGES.
 *
 * <pre>
 *   0        4      6        8       10     11     16
 *   +--------+------+--------+-------+------+------+------+-- ...
 *   | number | kept | unkept | first | here | edge | edge |
 *   +--------+------+--------+-------+------+------+------+-- ...
 *
 *   an edge:
 *   0       4                                5
 *   +-------+--------------------------------+
 *   | time  | watch: 0 to 6, new level: 7    |
 *   +-------+--------------------------------+
 * </pre>
 */
final class EdgesFormat implements Format<Edges> {
  private static final int MOST = 255;
  private static final int NUMBER = 0;
  private static final int KEPT = 4;
  private static final int UNKEPT = 6;
  private static final int FIRST = 8;
  private static final int HERE = 10;
  private static final int EDGES = 11;
  private static final int EDGE_LENGTH = 5;
  private static final int EDGE_WATCH = 4;
  private static final int LEVEL_BIT = 0x80;

  private final int watches;

  EdgesFormat(int watches) {
    this.watches = watches;
  }

  static int mostInFrame(int longestFrame) {
    return Math.max(0, Math.min(MOST, (longestFrame - FrameLayout.SHORTEST - EDGES) / EDGE_LENGTH));
  }

  @Override
  public int length(Edges message) {
    return EDGES + EDGE_LENGTH * message.edges().size();
  }

  @Override
  public int length(Body body) {
    return EDGES + (body.length() > HERE ? EDGE_LENGTH * body.u8(HERE) : 0);
  }

  @Override
  public void put(Edges message, Body body) {
    body.putI32(NUMBER, message.number());
    body.putU16(KEPT, message.kept());
    body.putU16(UNKEPT, message.unkept());
    body.putU16(FIRST, message.first());
    body.putU8(HERE, message.edges().size());
    int at = EDGES;
    for (Edge edge : message.edges()) {
      if (edge.watch() < 0 || edge.watch() >= LEVEL_BIT) {
        throw new IllegalArgumentException("watch " + edge.watch() + " has no room in an edge");
      }
      body.putU32(at, edge.atUs());
      body.putU8(at + EDGE_WATCH, edge.watch() | (edge.level() ? LEVEL_BIT : 0));
      at += EDGE_LENGTH;
    }
  }

  @Override
  public Edges get(Body body) {
    List<Edge> edges =
        IntStream.range(0, body.u8(HERE))
            .map(i -> EDGES + i * EDGE_LENGTH)
            .mapToObj(at -> edge(body, at))
            .toList();
    return new Edges(body.i32(NUMBER), body.u16(KEPT), body.u16(UNKEPT), body.u16(FIRST), edges);
  }

  private static Edge edge(Body body, int at) {
    int watch = body.u8(at + EDGE_WATCH);
    return new Edge(body.u32(at), watch & ~LEVEL_BIT, (watch & LEVEL_BIT) != 0);
  }

  @Override
  public int badField(Edges message) {
    if (message.first() + message.edges().size() > message.kept()) {
      return FIRST;
    }
    int at = EDGES;
    for (Edge edge : message.edges()) {
      if (edge.watch() >= watches) {
        return at + EDGE_WATCH;
      }
      at += EDGE_LENGTH;
    }
    return NO_FIELD;
  }
}
