package cardproof.link;

/**
 * NACK.
 *
 * <pre>
 *   0        1              2      6        8
 *   +--------+--------------+------+--------+
 *   | reason | refused type | next | detail |
 *   +--------+--------------+------+--------+
 * </pre>
 */
final class NackFormat implements Format<Nack> {
  private static final int REASON = 0;
  private static final int REFUSED_TYPE = 1;
  private static final int NEXT = 2;
  private static final int DETAIL = 6;
  private static final int LENGTH = 8;

  @Override
  public int length(Nack nack) {
    return LENGTH;
  }

  @Override
  public int length(Body body) {
    return LENGTH;
  }

  @Override
  public void put(Nack nack, Body body) {
    body.putU8(REASON, nack.reason().code());
    body.putU8(REFUSED_TYPE, nack.refusedType());
    body.putI32(NEXT, nack.next());
    body.putU16(DETAIL, nack.detail());
  }

  @Override
  public Nack get(Body body) {
    return new Nack(
        NackReason.of(body.u8(REASON)), body.u8(REFUSED_TYPE), body.i32(NEXT), body.u16(DETAIL));
  }
}
