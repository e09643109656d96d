package cardproof.conformance;

import java.util.Arrays;
import java.util.BitSet;

/** Reads numbers and sets out of a body by their offsets. */
record Fields(byte[] bytes) {
  int u8(int at) {
    return bytes[at] & 0xFF;
  }

  int u16(int at) {
    return u8(at) | u8(at + 1) << 8;
  }

  long u32(int at) {
    return u16(at) | (long) u16(at + 2) << 16;
  }

  long u64(int at) {
    return u32(at) | u32(at + 4) << 32;
  }

  BitSet set(int at, int size) {
    return BitSet.valueOf(Arrays.copyOfRange(bytes, at, at + size));
  }
}
