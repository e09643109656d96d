package cardproof.link;

/**
 * What every frame has in common, before COBS.
 *
 * <pre>
 *   0        1         5          5+n       9+n
 *   +--------+---------+----------+---------+
 *   | type   | session | body     | CRC-32  |
 *   +--------+---------+----------+---------+
 * </pre>
 *
 * <p>All numbers little-endian. <i>Payload</i> in this package means type, session and body.
 */
final class FrameLayout {
  static final int TYPE_OFFSET = 0;
  static final int SESSION_OFFSET = 1;
  static final int BODY_OFFSET = 5;
  static final int CHECK_LENGTH = 4;

  static final int SHORTEST = BODY_OFFSET + CHECK_LENGTH;
  static final int LONGEST = 512;

  private FrameLayout() {}
}
