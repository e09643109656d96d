package cardproof.conformance;

import java.nio.charset.StandardCharsets;

/** HELLO_R, section 5 (0x81) and 9. Sequence entries and edges are 0 where the version is 1.0. */
record HelloR(
    String letters,
    int major,
    int minor,
    int resetCause,
    int boot,
    long boardId,
    int drives,
    int watches,
    int slots,
    int longestFrame,
    long periodNs,
    int blindUs,
    long capabilities,
    String board,
    int session,
    int mostEntries,
    int mostEdges,
    int length) {

  static HelloR of(byte[] body) {
    Fields f = new Fields(body);
    int n = f.u8(37);
    boolean more = f.u8(5) >= 1;
    return new HelloR(
        new String(body, 0, 4, StandardCharsets.US_ASCII),
        f.u8(4),
        f.u8(5),
        f.u8(9),
        (int) f.u32(10),
        f.u64(14),
        f.u8(22),
        f.u8(23),
        f.u8(24),
        f.u16(25),
        f.u32(27),
        f.u16(31),
        f.u32(33),
        new String(body, 38, n, StandardCharsets.US_ASCII),
        (int) f.u32(38 + n),
        more ? f.u8(42 + n) : 0,
        more ? f.u16(43 + n) : 0,
        body.length - n);
  }

  boolean can(Capability what) {
    return (capabilities >> what.ordinal() & 1) != 0;
  }

  /** Bytes of a set of drives. */
  int d() {
    return (drives + 7) / 8;
  }

  /** Bytes of a set of watches. */
  int w() {
    return (watches + 7) / 8;
  }
}
