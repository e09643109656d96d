package cardproof.link;

/**
 * READ_EDGES.
 *
 * <pre>
 *   0        4       6
 *   +--------+-------+
 *   | number | first |
 *   +--------+-------+
 * </pre>
 */
final class ReadEdgesFormat implements Format<ReadEdges> {
  private static final int NUMBER = 0;
  private static final int FIRST = 4;
  private static final int LENGTH = 6;

  @Override
  public int length(ReadEdges message) {
    return LENGTH;
  }

  @Override
  public int length(Body body) {
    return LENGTH;
  }

  @Override
  public void put(ReadEdges message, Body body) {
    body.putI32(NUMBER, message.number());
    body.putU16(FIRST, message.first());
  }

  @Override
  public ReadEdges get(Body body) {
    return new ReadEdges(body.i32(NUMBER), body.u16(FIRST));
  }
}
