package cardproof.conformance;

/** NACK, section 5 (0x84). */
record Nack(int reason, int type, long next, int detail) {
  static final int UNKNOWN_TYPE = 1;
  static final int BAD_LENGTH = 2;
  static final int WRONG_SESSION = 3;
  static final int WRONG_STATE = 4;
  static final int OUT_OF_ORDER = 5;
  static final int NO_SLOT = 6;
  static final int DRIVE_OUTSIDE = 7;
  static final int BAD_FIELD = 8;

  static Nack of(byte[] body) {
    if (body.length != 8) {
      throw new AssertionError("NACK of " + body.length + " bytes");
    }
    Fields f = new Fields(body);
    return new Nack(f.u8(0), f.u8(1), f.u32(2), f.u16(6));
  }
}
