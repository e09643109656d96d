package cardproof.conformance;

import java.util.BitSet;

/** STATUS, section 5 (0x82). */
record Status(
    int state,
    int cause,
    int chattered,
    int boot,
    long next,
    long finished,
    long acked,
    long nowUs,
    long whole,
    long damaged,
    BitSet drives,
    BitSet watches,
    BitSet stirred) {
  static final int SAFE = 0;
  static final int OPENED = 1;
  static final int READY = 2;
  static final int RUN = 3;
  static final int HELD = 4;
  static final int TRIPPED = 5;

  static final int NEVER_LIVE = 0;
  static final int BY_STOP = 1;
  static final int BY_SILENCE = 2;
  static final int BY_CHATTER = 3;
  static final int BY_HOLD = 4;
  static final int BY_SUPPLY = 5;
  static final int BY_OPEN = 6;

  static Status of(byte[] body, HelloR shape) {
    Fields f = new Fields(body);
    int d = shape.d();
    int w = shape.w();
    if (body.length != 35 + d + 2 * w) {
      throw new AssertionError("STATUS of " + body.length + " bytes");
    }
    return new Status(
        f.u8(0),
        f.u8(1),
        f.u8(2),
        (int) f.u32(3),
        f.u32(7),
        f.u32(11),
        f.u32(15),
        f.u64(19),
        f.u32(27),
        f.u32(31),
        f.set(35, d),
        f.set(35 + d, w),
        f.set(35 + d + w, w));
  }
}
