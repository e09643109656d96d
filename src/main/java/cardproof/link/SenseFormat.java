package cardproof.link;

/**
 * SENSE.
 *
 * <pre>
 *   0      2         4
 *   +------+---------+
 *   | rail | current |
 *   +------+---------+
 * </pre>
 */
final class SenseFormat implements Format<Sense> {
  private static final int RAIL = 0;
  private static final int CURRENT = 2;
  private static final int LENGTH = 4;

  @Override
  public int length(Sense message) {
    return LENGTH;
  }

  @Override
  public int length(Body body) {
    return LENGTH;
  }

  @Override
  public void put(Sense sense, Body body) {
    body.putU16(RAIL, sense.railMv());
    body.putU16(CURRENT, sense.currentMa());
  }

  @Override
  public Sense get(Body body) {
    return new Sense(body.u16(RAIL), body.u16(CURRENT));
  }
}
